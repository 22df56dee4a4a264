package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * Support vector machines with a Gaussian kernel, one for each class against the rest, over rank-normal features; class probabilities are the softmax of twice the margins.
 *
 * <p>Cortes and Vapnik 1995. Kept for baselines: many vectors make a large file.
 */
final class KernelMachines implements Learner {
    static final String KIND = "svm";

    private static final int MAX_VECTORS = 200_000;
    private static final double SHARPNESS = 2;

    /** One class against the rest: its support vectors, their weights, and the offset. */
    record Machine(float[][] vectors, float[] weights, float offset) {}

    private final RankNormal scale;
    private final double width;
    private final Machine[] machines;

    /** @param width of the kernel {@code exp(-|a - b|^2 / (2 width^2))} */
    KernelMachines(RankNormal scale, double width, Machine[] machines) {
        this.scale = scale;
        this.width = width;
        this.machines = machines;
    }

    @Override
    public int classes() {
        return machines.length;
    }

    @Override
    public double[] probabilities(float[] x) {
        float[] z = scale.apply(x);
        double[] score = new double[machines.length];
        for (int c = 0; c < score.length; c++) {
            score[c] = SHARPNESS * margin(machines[c], z);
        }
        return Softmax.inPlace(score);
    }

    private double margin(Machine m, float[] z) {
        double sum = m.offset;
        for (int i = 0; i < m.weights.length; i++) {
            double squares = 0;
            for (int j = 0; j < z.length; j++) {
                double d = z[j] - m.vectors[i][j];
                squares += d * d;
            }
            sum += m.weights[i] * Math.exp(-squares / (2 * width * width));
        }
        return sum;
    }

    @Override
    public String kind() {
        return KIND;
    }

    @Override
    public void write(DataOutput out) throws IOException {
        scale.write(out);
        out.writeDouble(width);
        out.writeInt(machines.length);
        for (Machine m : machines) {
            out.writeInt(m.weights.length);
            for (float[] vector : m.vectors) {
                Numbers.writeFloats(out, vector);
            }
            Numbers.writeFloats(out, m.weights);
            out.writeFloat(m.offset);
        }
    }

    static KernelMachines read(DataInput in, int features) throws IOException {
        RankNormal scale = RankNormal.read(in, features);
        double width = Numbers.readDouble(in);
        if (!(width > 0)) {
            throw Numbers.damaged("a kernel of width " + width);
        }
        Machine[] machines = new Machine[Numbers.readCount(in, "classes", 2, 100)];
        for (int c = 0; c < machines.length; c++) {
            int n = Numbers.readCount(in, "support vectors", 0, MAX_VECTORS);
            java.util.List<float[]> vectors = new java.util.ArrayList<>();
            for (int i = 0; i < n; i++) {
                vectors.add(Numbers.readFloats(in, features));
            }
            float[] weights = Numbers.readFloats(in, n);
            machines[c] = new Machine(vectors.toArray(float[][]::new), weights, Numbers.readFloats(in, 1)[0]);
        }
        return new KernelMachines(scale, width, machines);
    }
}
