package lungwort.classify;

import java.util.function.IntFunction;

/** Chooses thresholds that score best on cases the model had not seen. */
final class ThresholdSearch {
    private static final double POOR_QUALITY_FROM = 0.5;

    private ThresholdSearch() {}

    /**
     * @param segments probabilities of segments, and their classes
     * @param recordings probabilities of recordings, and their classes
     */
    static Thresholds choose(double[][] segments, int[] segmentClass, double[][] recordings, int[] recordingClass) {
        double t11 = best(segments.length, segmentClass, -1, t -> i -> segments[i][0] >= t ? 0 : -1);
        double t12 = best(
                segments.length, segmentClass, -1, t -> i -> Thresholds.likeliest(segments[i], t, SegmentClass.COUNT));
        double[][] shares = new double[recordings.length][4];
        for (int i = 0; i < shares.length; i++) {
            for (int c = 0; c < 4; c++) {
                shares[i][c] = recordings[i][c] / (1 - recordings[i][4]);
            }
        }
        int poor = RecordingClass.POOR_QUALITY.ordinal();
        double t21 = best(shares.length, recordingClass, poor, t -> i -> shares[i][0] >= t ? 0 : -1);
        double t22 = best(shares.length, recordingClass, poor, t -> i -> Thresholds.likeliest(shares[i], t, 4));
        return new Thresholds(t11, t12, t21, t22, POOR_QUALITY_FROM);
    }

    /** The decision of one threshold: the class given to a case, or -1 for "anything but normal", which counts as right for any adventitious case. */
    private interface Decision extends IntFunction<Integer> {}

    private interface DecisionAt {
        Decision at(double threshold);
    }

    /** The middle of the best stretch of thresholds, so that the choice does not hang on one case. */
    private static double best(int n, int[] truth, int leftOut, DecisionAt decisions) {
        int steps = 100;
        double[] score = new double[steps];
        double highest = 0;
        for (int s = 1; s < steps; s++) {
            score[s] = score(n, truth, leftOut, decisions.at((double) s / steps));
            highest = Math.max(highest, score[s]);
        }
        double weights = 0;
        double sum = 0;
        for (int s = 1; s < steps; s++) {
            if (score[s] >= highest - 0.002) {
                weights++;
                sum += (double) s / steps;
            }
        }
        return weights > 0 ? sum / weights : 0.5;
    }

    /** The challenge's Score: the mean of the arithmetic and the harmonic mean of sensitivity and specificity. */
    private static double score(int n, int[] truth, int leftOut, Decision decision) {
        double normal = 0;
        double normalRight = 0;
        double other = 0;
        double otherRight = 0;
        for (int i = 0; i < n; i++) {
            if (truth[i] == leftOut) {
                continue;
            }
            int answer = decision.apply(i);
            if (truth[i] == 0) {
                normal++;
                normalRight += answer == 0 ? 1 : 0;
            } else {
                other++;
                otherRight += answer == truth[i] || answer == -1 ? 1 : 0;
            }
        }
        double sp = normal == 0 ? 0 : normalRight / normal;
        double se = other == 0 ? 0 : otherRight / other;
        return se + sp == 0 ? 0 : ((se + sp) / 2 + 2 * se * sp / (se + sp)) / 2;
    }
}
