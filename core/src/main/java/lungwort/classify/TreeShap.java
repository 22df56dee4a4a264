package lungwort.classify;

/**
 * Shapley values of one feature vector under boosted trees: what each feature adds to a score, against the average over the training rows that the trees remember in their
 * covers.
 *
 * <p>Lundberg, Erion and Lee, Consistent individualized feature attribution for tree ensembles (2018), algorithm 2 (path-dependent). The values and the mean add up to the
 * score.
 */
final class TreeShap {
    private final BoostedTrees model;
    private final TreeTable trees;
    private final double[] cover;

    TreeShap(BoostedTrees model) {
        this.model = model;
        this.trees = model.table();
        this.cover = new double[trees.nodes()];
        for (int t = 0; t < trees.trees(); t++) {
            fillCover(trees.root(t));
        }
    }

    private double fillCover(int node) {
        cover[node] = trees.isLeaf(node)
                ? model.leafCover(trees.leafOf(node))
                : fillCover(trees.lowChild(node)) + fillCover(trees.highChild(node));
        return cover[node];
    }

    /** Mean score of an output over the training rows, as the covers remember them. */
    double mean(int output) {
        int outputs = BoostedTrees.outputs(model.classes());
        double sum = model.startScore(output);
        for (int t = output; t < trees.trees(); t += outputs) {
            sum += mean0(trees.root(t));
        }
        return sum;
    }

    private double mean0(int node) {
        if (trees.isLeaf(node)) {
            return model.leafValue(trees.leafOf(node));
        }
        int low = trees.lowChild(node);
        int high = trees.highChild(node);
        return (cover[low] * mean0(low) + cover[high] * mean0(high)) / cover[node];
    }

    /**
     * Adds each feature's share of an output's score.
     *
     * @param x feature vector
     * @param output which score
     * @param factor each share is multiplied by this
     * @param shares shape {@code [features]}; added to
     */
    void addTo(float[] x, int output, double factor, double[] shares) {
        int outputs = BoostedTrees.outputs(model.classes());
        for (int t = output; t < trees.trees(); t += outputs) {
            walk(x, trees.root(t), new Path(0), 1, 1, -1, factor, shares);
        }
    }

    /** The features on the way to a node, with the share of rows that go on if the feature is unknown (zero) or known (one), and the weights of subsets. */
    private static final class Path {
        final int[] feature;
        final double[] zero;
        final double[] one;
        final double[] weight;
        int length;

        Path(int length) {
            this.length = length;
            feature = new int[length + 1];
            zero = new double[length + 1];
            one = new double[length + 1];
            weight = new double[length + 1];
        }

        Path extended(double zeroShare, double oneShare, int f) {
            Path p = new Path(length + 1);
            System.arraycopy(feature, 0, p.feature, 0, length);
            System.arraycopy(zero, 0, p.zero, 0, length);
            System.arraycopy(one, 0, p.one, 0, length);
            System.arraycopy(weight, 0, p.weight, 0, length);
            p.feature[length] = f;
            p.zero[length] = zeroShare;
            p.one[length] = oneShare;
            p.weight[length] = length == 0 ? 1 : 0;
            for (int i = length - 1; i >= 0; i--) {
                p.weight[i + 1] += oneShare * p.weight[i] * (i + 1) / (length + 1);
                p.weight[i] = zeroShare * p.weight[i] * (length - i) / (length + 1);
            }
            return p;
        }

        Path without(int index) {
            Path p = new Path(length - 1);
            System.arraycopy(weight, 0, p.weight, 0, length - 1);
            double next = weight[length - 1];
            for (int i = length - 2; i >= 0; i--) {
                if (one[index] != 0) {
                    double old = weight[i];
                    p.weight[i] = next * length / ((i + 1) * one[index]);
                    next = old - p.weight[i] * zero[index] * (length - 1 - i) / length;
                } else {
                    p.weight[i] = weight[i] * length / (zero[index] * (length - 1 - i));
                }
            }
            for (int i = 0, k = 0; i < length; i++) {
                if (i != index) {
                    p.feature[k] = feature[i];
                    p.zero[k] = zero[i];
                    p.one[k++] = one[i];
                }
            }
            return p;
        }

        double sumWithout(int index) {
            Path p = without(index);
            double sum = 0;
            for (int i = 0; i < p.length; i++) {
                sum += p.weight[i];
            }
            return sum;
        }

        int indexOf(int f) {
            for (int i = 0; i < length; i++) {
                if (feature[i] == f) {
                    return i;
                }
            }
            return -1;
        }
    }

    private void walk(
            float[] x, int node, Path before, double zero, double one, int feature, double factor, double[] shares) {
        Path path = before.extended(zero, one, feature);
        if (trees.isLeaf(node)) {
            double value = factor * model.leafValue(trees.leafOf(node));
            for (int i = 1; i < path.length; i++) {
                shares[path.feature[i]] += path.sumWithout(i) * (path.one[i] - path.zero[i]) * value;
            }
            return;
        }
        int f = trees.feature(node);
        boolean low = x[f] <= trees.threshold(node);
        int hot = low ? trees.lowChild(node) : trees.highChild(node);
        int cold = low ? trees.highChild(node) : trees.lowChild(node);
        double zeroBefore = 1;
        double oneBefore = 1;
        int known = path.indexOf(f);
        Path rest = path;
        if (known >= 0) {
            zeroBefore = path.zero[known];
            oneBefore = path.one[known];
            rest = path.without(known);
        }
        walk(x, hot, rest, zeroBefore * cover[hot] / cover[node], oneBefore, f, factor, shares);
        walk(x, cold, rest, zeroBefore * cover[cold] / cover[node], 0, f, factor, shares);
    }
}
