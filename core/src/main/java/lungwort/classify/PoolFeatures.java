package lungwort.classify;

import java.util.Arrays;

/**
 * A recording's windows pooled into one vector, with the recording's own features behind: for each class and for normal, continuous and discontinuous, the mean, the highest,
 * the mean of the two highest, the upper quartile and the share above a half.
 */
final class PoolFeatures {
    private static final int SERIES = SegmentClass.COUNT + 2;
    private static final int STATISTICS = 6;

    /** Number of pooled values, before the recording's own features. */
    static final int POOLED = SERIES * STATISTICS + 1;

    private PoolFeatures() {}

    /**
     * @param windows class probabilities of the recording's windows, at least one
     * @param recording the recording's own features
     */
    static float[] of(double[][] windows, float[] recording) {
        float[] row = Arrays.copyOf(new float[0], POOLED + recording.length);
        int at = 0;
        for (int s = 0; s < SERIES; s++) {
            double[] series = new double[windows.length];
            for (int i = 0; i < series.length; i++) {
                series[i] = value(windows[i], s);
            }
            at = pool(series, row, at);
        }
        row[at++] = (float) Math.log(windows.length);
        System.arraycopy(recording, 0, row, at, recording.length);
        return row;
    }

    private static double value(double[] p, int series) {
        if (series < SegmentClass.COUNT) {
            return p[series];
        }
        return series == SegmentClass.COUNT ? SegmentClass.continuous(p) : SegmentClass.discontinuous(p);
    }

    private static int pool(double[] series, float[] row, int start) {
        double[] sorted = series.clone();
        Arrays.sort(sorted);
        int n = sorted.length;
        double mean = Arrays.stream(sorted).average().orElse(0);
        double logits =
                Arrays.stream(sorted).map(ContextFeatures::logit).average().orElse(0);
        long many = Arrays.stream(sorted).filter(v -> v > 0.5).count();
        int at = start;
        row[at++] = (float) mean;
        row[at++] = (float) logits;
        row[at++] = (float) sorted[n - 1];
        row[at++] = (float) ((sorted[n - 1] + sorted[Math.max(0, n - 2)]) / 2);
        row[at++] = (float) sorted[(int) Math.round(0.75 * (n - 1))];
        row[at++] = (float) ((double) many / n);
        return at;
    }
}
