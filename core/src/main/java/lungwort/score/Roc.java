package lungwort.score;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Receiver operating characteristic of a score against a yes-or-no truth. */
public final class Roc {
    private Roc() {}

    /**
     * Area under the curve: the chance that a random positive scores higher than a random negative, ties counting half (Hanley and McNeil, Radiology 1982), computed
     * from mid-ranks as the Mann-Whitney U statistic over the product of the group sizes.
     *
     * @param scores higher means more likely positive; none may be NaN
     * @param positive truth, same length
     * @return in [0, 1]; NaN if all items are of one kind
     */
    public static double auc(double[] scores, boolean[] positive) {
        int[] order = sorted(scores, positive);
        double rankSum = 0;
        long positives = 0;
        for (int from = 0; from < order.length; ) {
            int to = endOfTie(scores, order, from);
            long inTie =
                    IntStream.range(from, to).filter(i -> positive[order[i]]).count();
            double midRank = (from + 1 + to) / 2.0;
            rankSum += inTie * midRank;
            positives += inTie;
            from = to;
        }
        long negatives = order.length - positives;
        if (positives == 0 || negatives == 0) {
            return Double.NaN;
        }
        double u = rankSum - positives * (positives + 1) / 2.0;
        return u / ((double) positives * negatives);
    }

    /**
     * The curve's corners from (0, 0) to (1, 1), highest threshold first. An item is called positive if its score is at least the threshold.
     *
     * @return empty if all items are of one kind
     */
    public static List<Point> curve(double[] scores, boolean[] positive) {
        int[] order = sorted(scores, positive);
        long positives =
                IntStream.range(0, positive.length).filter(i -> positive[i]).count();
        long negatives = positive.length - positives;
        List<Point> points = new ArrayList<>();
        if (positives == 0 || negatives == 0) {
            return points;
        }
        points.add(new Point(Double.POSITIVE_INFINITY, 0, 0));
        long truePositives = 0;
        long falsePositives = 0;
        for (int i = order.length - 1; i >= 0; i--) {
            if (positive[order[i]]) {
                truePositives++;
            } else {
                falsePositives++;
            }
            if (i == 0 || scores[order[i - 1]] < scores[order[i]]) {
                points.add(new Point(
                        scores[order[i]], (double) falsePositives / negatives, (double) truePositives / positives));
            }
        }
        return points;
    }

    private static int[] sorted(double[] scores, boolean[] positive) {
        if (scores.length != positive.length) {
            throw new IllegalArgumentException("%d scores but %d truths".formatted(scores.length, positive.length));
        }
        for (double score : scores) {
            if (Double.isNaN(score)) {
                throw new IllegalArgumentException("a score is not a number");
            }
        }
        return IntStream.range(0, scores.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> scores[i]))
                .mapToInt(Integer::intValue)
                .toArray();
    }

    private static int endOfTie(double[] scores, int[] order, int from) {
        int to = from + 1;
        while (to < order.length && scores[order[to]] == scores[order[from]]) {
            to++;
        }
        return to;
    }

    /**
     * One corner of the curve.
     *
     * @param threshold lowest score that is called positive
     * @param falsePositiveRate share of negatives called positive
     * @param truePositiveRate share of positives called positive
     */
    public record Point(double threshold, double falsePositiveRate, double truePositiveRate) {}
}
