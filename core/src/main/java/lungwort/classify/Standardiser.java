package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/** Feature-wise centring and scaling, with far values held at {@value #LIMIT} standard deviations so that one odd feature cannot rule a linear sum. */
record Standardiser(float[] mean, float[] scale) {
    /** In standard deviations. */
    static final float LIMIT = 4;

    static Standardiser of(float[][] x) {
        int p = x[0].length;
        float[] mean = new float[p];
        float[] scale = new float[p];
        for (int j = 0; j < p; j++) {
            double sum = 0;
            double squares = 0;
            for (float[] row : x) {
                sum += row[j];
            }
            double m = sum / x.length;
            for (float[] row : x) {
                squares += (row[j] - m) * (row[j] - m);
            }
            double deviation = Math.sqrt(squares / x.length);
            mean[j] = (float) m;
            scale[j] = deviation > 1e-9 ? (float) (1 / deviation) : 0;
        }
        return new Standardiser(mean, scale);
    }

    int features() {
        return mean.length;
    }

    float[] apply(float[] x) {
        float[] z = new float[mean.length];
        for (int j = 0; j < z.length; j++) {
            z[j] = Math.max(-LIMIT, Math.min(LIMIT, (x[j] - mean[j]) * scale[j]));
        }
        return z;
    }

    void write(DataOutput out) throws IOException {
        out.writeInt(mean.length);
        Numbers.writeFloats(out, mean);
        Numbers.writeFloats(out, scale);
    }

    static Standardiser read(DataInput in, int features) throws IOException {
        int n = in.readInt();
        if (n != features) {
            throw Numbers.damaged("scaling for %d features, %d expected".formatted(n, features));
        }
        return new Standardiser(Numbers.readFloats(in, n), Numbers.readFloats(in, n));
    }
}
