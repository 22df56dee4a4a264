package lungwort.score;

import java.util.Arrays;

/** Scores sorted once, so that the ROC area of a thousand resamples needs no sorting: the same figure as {@link Roc#auc}. */
final class RankedScores {
    private final int[] rankOfItem;
    private final boolean[] positive;
    private final int ranks;

    RankedScores(double[] scores, boolean[] positive) {
        double[] distinct = Arrays.stream(scores)
                .map(RankedScores::plusZero)
                .sorted()
                .distinct()
                .toArray();
        this.rankOfItem = Arrays.stream(scores)
                .mapToInt(score -> Arrays.binarySearch(distinct, plusZero(score)))
                .toArray();
        this.positive = positive.clone();
        this.ranks = distinct.length;
    }

    /** Both zeros are one score, but sorting and searching tell them apart. */
    private static double plusZero(double score) {
        if (Double.isNaN(score)) {
            throw new IllegalArgumentException("a score is not a number");
        }
        return score + 0.0;
    }

    /**
     * The area over some items, each as often as it is drawn.
     *
     * @return in [0, 1]; NaN if all drawn are of one kind
     */
    double auc(int[] drawn) {
        long[] positives = new long[ranks];
        long[] negatives = new long[ranks];
        for (int item : drawn) {
            (positive[item] ? positives : negatives)[rankOfItem[item]]++;
        }
        double wins = 0;
        long negativesBelow = 0;
        long positivesInAll = 0;
        for (int rank = 0; rank < ranks; rank++) {
            wins += positives[rank] * (negativesBelow + negatives[rank] / 2.0);
            negativesBelow += negatives[rank];
            positivesInAll += positives[rank];
        }
        if (positivesInAll == 0 || negativesBelow == 0) {
            return Double.NaN;
        }
        return wins / ((double) positivesInAll * negativesBelow);
    }
}
