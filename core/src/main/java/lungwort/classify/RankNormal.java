package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * Maps each feature to the normal score of its rank among the training rows (van der Waerden 1952), so that linear sums and nets see every feature on one scale, whatever its
 * unit and however far its extremes lie.
 *
 * <p>Kept as {@value #KNOTS} quantiles a feature; between them scores are interpolated, beyond the ends held.
 */
final class RankNormal {
    static final int KNOTS = 65;

    /** Ranks of the outermost knots: scores lie within +-2.6. */
    private static final double END_RANK = 0.005;

    private static final double[] SCORE = scores();

    private final float[][] knot;

    private RankNormal(float[][] knot) {
        this.knot = knot;
    }

    private static double[] scores() {
        NormalDistribution normal = new NormalDistribution(null, 0, 1);
        double[] z = new double[KNOTS];
        for (int i = 0; i < KNOTS; i++) {
            double rank = Math.max(END_RANK, Math.min(1 - END_RANK, (double) i / (KNOTS - 1)));
            z[i] = normal.inverseCumulativeProbability(rank);
        }
        return z;
    }

    static RankNormal of(float[][] x) {
        float[][] knot = new float[x[0].length][];
        IntStream.range(0, knot.length).parallel().forEach(j -> {
            float[] column = new float[x.length];
            for (int i = 0; i < column.length; i++) {
                column[i] = x[i][j];
            }
            Arrays.sort(column);
            float[] k = new float[KNOTS];
            for (int i = 0; i < KNOTS; i++) {
                k[i] = column[(int) Math.round((double) i / (KNOTS - 1) * (column.length - 1))];
            }
            knot[j] = k;
        });
        return new RankNormal(knot);
    }

    int features() {
        return knot.length;
    }

    float[] apply(float[] x) {
        float[] z = new float[knot.length];
        for (int j = 0; j < z.length; j++) {
            z[j] = (float) score(knot[j], x[j]);
        }
        return z;
    }

    private static double score(float[] k, float value) {
        if (value <= k[0]) {
            return value < k[0] ? SCORE[0] : tied(k, 0);
        }
        if (value >= k[KNOTS - 1]) {
            return value > k[KNOTS - 1] ? SCORE[KNOTS - 1] : tied(k, KNOTS - 1);
        }
        int at = Arrays.binarySearch(k, value);
        if (at >= 0) {
            return tied(k, at);
        }
        int high = -at - 1;
        double share = ((double) value - k[high - 1]) / ((double) k[high] - k[high - 1]);
        return SCORE[high - 1] + share * (SCORE[high] - SCORE[high - 1]);
    }

    /** A value that many rows share gets the middle of its ranks. */
    private static double tied(float[] k, int at) {
        int low = at;
        int high = at;
        while (low > 0 && k[low - 1] == k[at]) {
            low--;
        }
        while (high < KNOTS - 1 && k[high + 1] == k[at]) {
            high++;
        }
        return (SCORE[low] + SCORE[high]) / 2;
    }

    void write(DataOutput out) throws IOException {
        out.writeInt(knot.length);
        for (float[] k : knot) {
            Numbers.writeFloats(out, k);
        }
    }

    static RankNormal read(DataInput in, int features) throws IOException {
        int n = in.readInt();
        if (n != features) {
            throw Numbers.damaged("scales of %d features, %d expected", n, features);
        }
        float[][] knot = new float[n][];
        for (int j = 0; j < n; j++) {
            knot[j] = Numbers.readFloats(in, KNOTS);
            for (int i = 1; i < KNOTS; i++) {
                if (knot[j][i] < knot[j][i - 1]) {
                    throw Numbers.damaged("the scale of feature %d falls", j);
                }
            }
        }
        return new RankNormal(knot);
    }
}
