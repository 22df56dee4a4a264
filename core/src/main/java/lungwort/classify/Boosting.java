package lungwort.classify;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Grows {@link BoostedTrees} on histograms of binned features with second-order leaf values and sampling of rows and columns.
 *
 * <p>Sources: Friedman 2001 (boosting), Friedman 2002 (row sampling), Chen and Guestrin, KDD 2016 (second-order gain and leaf values, column sampling), Ke et al., NIPS 2017
 * (histograms, best-first growth). Written here because the library's boosting searches every column exactly and takes minutes where this takes seconds.
 *
 * <p>The result depends on rows, settings and seed alone, not on the number of threads: the trees of one round are independent of one another and each is grown by one
 * thread.
 */
final class Boosting {
    private Boosting() {}

    /**
     * How to grow.
     *
     * @param rounds trees for each output, at least 1
     * @param leaves most leaves of a tree, at least 2
     * @param learningRate shrinkage of each leaf, in (0, 1]
     * @param columnShare share of features each tree may ask, in (0, 1]
     * @param rowShare share of rows each tree sees, in (0, 1]
     * @param minLeafRows fewest rows in a leaf
     * @param l2 ridge penalty on leaf values
     * @param seed of every draw
     */
    record Settings(
            int rounds,
            int leaves,
            double learningRate,
            double columnShare,
            double rowShare,
            int minLeafRows,
            double l2,
            long seed) {
        Settings {
            if (rounds < 1 || leaves < 2 || !(learningRate > 0 && learningRate <= 1)) {
                throw new IllegalArgumentException(
                        "rounds %d, leaves %d, learning rate %s".formatted(rounds, leaves, learningRate));
            }
            if (!(columnShare > 0 && columnShare <= 1) || !(rowShare > 0 && rowShare <= 1)) {
                throw new IllegalArgumentException("column share %s, row share %s".formatted(columnShare, rowShare));
            }
        }
    }

    /**
     * Grows trees for class labels.
     *
     * @param x rows of features, all finite
     * @param y class of each row, in [0, classes)
     * @param weight of each row, not negative
     * @param classes number of classes
     */
    static BoostedTrees fit(float[][] x, int[] y, double[] weight, int classes, Settings s) {
        BinnedColumns columns = BinnedColumns.of(x);
        int outputs = BoostedTrees.outputs(classes);
        double[] start = startScores(y, weight, classes);
        double[][] score = new double[outputs][x.length];
        for (int k = 0; k < outputs; k++) {
            Arrays.fill(score[k], start[k]);
        }
        HistogramTree[] trees = new HistogramTree[s.rounds * outputs];
        for (int round = 0; round < s.rounds; round++) {
            double[][] p = probabilities(score);
            int first = round * outputs;
            IntStream.range(0, outputs).parallel().forEach(k -> {
                int positive = outputs == 1 ? 1 : k;
                SplittableRandom random = new SplittableRandom(s.seed * 1_000_003L + first + k);
                HistogramTree tree =
                        HistogramTree.grow(columns, gradients(p[k], y, weight, positive, outputs), s, random);
                tree.addTo(score[k], columns);
                trees[first + k] = tree;
            });
        }
        return pack(classes, start, trees);
    }

    /**
     * Grows trees for a number, by Huber's loss (Friedman 2001, section 4.4): its square where the tree's answer is near, its absolute value beyond, so that a few far off do not lead. The answer is the only one of
     * {@link BoostedTrees#scores}.
     *
     * @param x rows of features, all finite; at least one
     * @param y number of each row
     * @param near up to such a difference the square counts, above 0
     */
    static BoostedTrees fitNumber(float[][] x, double[] y, double near, Settings s) {
        BinnedColumns columns = BinnedColumns.of(x);
        double[] sorted = y.clone();
        Arrays.sort(sorted);
        double start = sorted[sorted.length / 2];
        double[] score = new double[x.length];
        Arrays.fill(score, start);
        HistogramTree[] trees = new HistogramTree[s.rounds];
        for (int round = 0; round < s.rounds; round++) {
            double[] gh = new double[2 * score.length];
            for (int i = 0; i < score.length; i++) {
                gh[2 * i] = Math.max(-near, Math.min(near, score[i] - y[i]));
                gh[2 * i + 1] = 1;
            }
            trees[round] = HistogramTree.grow(columns, gh, s, new SplittableRandom(s.seed * 1_000_003L + round));
            trees[round].addTo(score, columns);
        }
        return pack(2, new double[] {start}, trees);
    }

    /** Log of the class shares, or for two classes the log odds. */
    private static double[] startScores(int[] y, double[] weight, int classes) {
        double[] total = new double[classes];
        Arrays.fill(total, 1e-3);
        for (int i = 0; i < y.length; i++) {
            total[y[i]] += weight[i];
        }
        if (classes == 2) {
            return new double[] {Math.log(total[1] / total[0])};
        }
        double sum = Arrays.stream(total).sum();
        return Arrays.stream(total).map(t -> Math.log(t / sum)).toArray();
    }

    private static double[][] probabilities(double[][] score) {
        int n = score[0].length;
        double[][] p = new double[score.length][n];
        double[] one = new double[score.length];
        for (int i = 0; i < n; i++) {
            if (score.length == 1) {
                p[0][i] = Softmax.logistic(score[0][i]);
                continue;
            }
            for (int k = 0; k < one.length; k++) {
                one[k] = score[k][i];
            }
            Softmax.inPlace(one);
            for (int k = 0; k < one.length; k++) {
                p[k][i] = one[k];
            }
        }
        return p;
    }

    /** First and second derivatives of the cross entropy by the score, row by row: {g0, h0, g1, h1, ...}. */
    private static double[] gradients(double[] p, int[] y, double[] weight, int positive, int outputs) {
        double[] gh = new double[2 * p.length];
        double curvature = outputs == 1 ? 1 : outputs / (outputs - 1.0);
        for (int i = 0; i < p.length; i++) {
            gh[2 * i] = weight[i] * (p[i] - (y[i] == positive ? 1 : 0));
            gh[2 * i + 1] = weight[i] * Math.max(1e-6, curvature * p[i] * (1 - p[i]));
        }
        return gh;
    }

    private static BoostedTrees pack(int classes, double[] start, HistogramTree[] trees) {
        TreeTable.Builder table = new TreeTable.Builder();
        short[] value =
                new short[Arrays.stream(trees).mapToInt(HistogramTree::leaves).sum()];
        short[] cover = new short[value.length];
        int at = 0;
        for (HistogramTree tree : trees) {
            at = tree.pack(table, value, cover, at);
        }
        return new BoostedTrees(classes, start, table.build(), value, cover);
    }
}
