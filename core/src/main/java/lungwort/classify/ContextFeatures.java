package lungwort.classify;

import java.util.Arrays;
import java.util.List;

/**
 * A segment's own probabilities beside those of its neighbours, of the rest of its recording and of the person's other recordings: sounds come back breath after breath
 * and site after site, so the others tell about this one.
 *
 * <p>Features: log probabilities of its seven classes; the logits of normal, continuous and discontinuous of itself, of the two segments before and the two after; mean,
 * highest and lowest of these over all other segments of the recording; their mean over the segments of the person's other recordings; the logarithm of the number of segments.
 * Where there is no such neighbour or other recording, the mean of the recording's other segments stands in; where there is no other segment, its own. Behind stand the segment's own
 * {@link SegmentFacts}, where there are any.
 */
final class ContextFeatures {
    private static final double LEAST = 1e-3;
    private static final int[] NEIGHBOURS = {-2, -1, 1, 2};
    private static final int ASPECTS = 3;

    /** Length of the vectors without facts. */
    static final int SIZE = SegmentClass.COUNT + ASPECTS * (1 + NEIGHBOURS.length + 3 + 1) + 1;

    private ContextFeatures() {}

    static double logit(double p) {
        return logit(p, LEAST);
    }

    /** Of a probability that is held so far from 0 and 1. */
    static double logit(double p, double least) {
        double held = Math.max(least, Math.min(1 - least, p));
        return Math.log(held / (1 - held));
    }

    /** Length of the vectors. */
    static int size(boolean facts) {
        return facts ? SIZE + SegmentFacts.NAMES.size() : SIZE;
    }

    /** Logits of normal, continuous and discontinuous. */
    static double[] aspects(double[] p) {
        return new double[] {logit(p[0]), logit(SegmentClass.continuous(p)), logit(SegmentClass.discontinuous(p))};
    }

    /**
     * Vectors of one recording's segments.
     *
     * @param recordings the segments of each recording of one person
     * @param which the recording
     * @return one vector for each of its segments
     */
    static float[][] of(List<SegmentAnswers> recordings, int which) {
        double[][] p = recordings.get(which).alone();
        float[][] facts = recordings.get(which).facts();
        double[][] aspect = Arrays.stream(p).map(ContextFeatures::aspects).toArray(double[][]::new);
        double[] elsewhere = elsewhere(recordings, which);
        float[][] rows = new float[p.length][];
        for (int i = 0; i < p.length; i++) {
            float[] row = row(p, aspect, i, elsewhere);
            rows[i] = facts.length == 0 ? row : joined(row, facts[i]);
        }
        return rows;
    }

    private static float[] joined(float[] a, float[] b) {
        float[] both = Arrays.copyOf(a, a.length + b.length);
        System.arraycopy(b, 0, both, a.length, b.length);
        return both;
    }

    /** Mean aspects over the segments of the other recordings; empty if they have none. */
    private static double[] elsewhere(List<SegmentAnswers> recordings, int which) {
        double[] sum = new double[ASPECTS];
        int n = 0;
        for (int r = 0; r < recordings.size(); r++) {
            for (double[] p : r == which ? new double[0][] : recordings.get(r).alone()) {
                double[] aspect = aspects(p);
                for (int a = 0; a < ASPECTS; a++) {
                    sum[a] += aspect[a];
                }
                n++;
            }
        }
        if (n == 0) {
            return new double[0];
        }
        for (int a = 0; a < ASPECTS; a++) {
            sum[a] /= n;
        }
        return sum;
    }

    private static float[] row(double[][] p, double[][] aspect, int i, double[] elsewhere) {
        float[] row = new float[SIZE];
        int at = 0;
        for (double v : p[i]) {
            row[at++] = (float) Math.log(v + LEAST);
        }
        for (int a = 0; a < ASPECTS; a++) {
            double[] others = others(aspect, a, i);
            row[at++] = (float) aspect[i][a];
            for (int step : NEIGHBOURS) {
                int j = i + step;
                row[at++] = (float) (j >= 0 && j < p.length ? aspect[j][a] : others[0]);
            }
            for (double v : others) {
                row[at++] = (float) v;
            }
            row[at++] = (float) (elsewhere.length > 0 ? elsewhere[a] : others[0]);
        }
        row[at] = (float) Math.log(p.length);
        return row;
    }

    /** Mean, highest and lowest over all other segments. */
    private static double[] others(double[][] aspect, int a, int self) {
        return Others.of(Arrays.stream(aspect).mapToDouble(v -> v[a]).toArray(), self);
    }
}
