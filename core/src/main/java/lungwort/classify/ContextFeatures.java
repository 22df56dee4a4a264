package lungwort.classify;

import java.util.function.ToDoubleFunction;

/**
 * A segment's own probabilities beside those of its neighbours and of the rest of the recording: sounds come back breath after breath, so the others tell about this one.
 *
 * <p>Features: log probabilities of its seven classes; the logits of normal, continuous and discontinuous of itself, of the two segments before and the two after; mean,
 * highest and lowest of these over all other segments; the logarithm of the number of segments. Where there is no such neighbour, the mean of the others stands in; where there
 * is no other segment, its own.
 */
final class ContextFeatures {
    private static final double LEAST = 1e-3;
    private static final int[] NEIGHBOURS = {-2, -1, 1, 2};
    private static final ToDoubleFunction<double[]>[] ASPECTS = aspects();

    /** Length of the vectors. */
    static final int SIZE = SegmentClass.COUNT + ASPECTS.length * (1 + NEIGHBOURS.length + 3) + 1;

    private ContextFeatures() {}

    @SuppressWarnings({"unchecked", "rawtypes"}) // arrays of generic type cannot be made otherwise
    private static ToDoubleFunction<double[]>[] aspects() {
        return new ToDoubleFunction[] {
            (ToDoubleFunction<double[]>) p -> p[0],
            (ToDoubleFunction<double[]>) SegmentClass::continuous,
            (ToDoubleFunction<double[]>) SegmentClass::discontinuous
        };
    }

    static double logit(double p) {
        double held = Math.max(LEAST, Math.min(1 - LEAST, p));
        return Math.log(held / (1 - held));
    }

    /** @param p class probabilities of a recording's segments, in order of time; returns one vector for each */
    static float[][] of(double[][] p) {
        double[][] aspect = new double[p.length][ASPECTS.length];
        for (int i = 0; i < p.length; i++) {
            for (int a = 0; a < ASPECTS.length; a++) {
                aspect[i][a] = logit(ASPECTS[a].applyAsDouble(p[i]));
            }
        }
        float[][] rows = new float[p.length][];
        for (int i = 0; i < p.length; i++) {
            rows[i] = row(p, aspect, i);
        }
        return rows;
    }

    private static float[] row(double[][] p, double[][] aspect, int i) {
        float[] row = new float[SIZE];
        int at = 0;
        for (double v : p[i]) {
            row[at++] = (float) Math.log(v + LEAST);
        }
        for (int a = 0; a < ASPECTS.length; a++) {
            double[] others = others(aspect, a, i);
            row[at++] = (float) aspect[i][a];
            for (int step : NEIGHBOURS) {
                int j = i + step;
                row[at++] = (float) (j >= 0 && j < p.length ? aspect[j][a] : others[0]);
            }
            for (double v : others) {
                row[at++] = (float) v;
            }
        }
        row[at] = (float) Math.log(p.length);
        return row;
    }

    /** Mean, highest and lowest over all other segments. */
    private static double[] others(double[][] aspect, int a, int self) {
        if (aspect.length == 1) {
            return new double[] {aspect[0][a], aspect[0][a], aspect[0][a]};
        }
        double sum = 0;
        double high = Double.NEGATIVE_INFINITY;
        double low = Double.POSITIVE_INFINITY;
        for (int j = 0; j < aspect.length; j++) {
            if (j != self) {
                sum += aspect[j][a];
                high = Math.max(high, aspect[j][a]);
                low = Math.min(low, aspect[j][a]);
            }
        }
        return new double[] {sum / (aspect.length - 1), high, low};
    }
}
