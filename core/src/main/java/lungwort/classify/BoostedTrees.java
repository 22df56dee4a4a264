package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * An additive ensemble of regression trees on a logit scale: softmax over one score a class, or for two classes the logistic function of a single score.
 *
 * <p>Friedman, Greedy function approximation: a gradient boosting machine, Annals of Statistics 29 (2001).
 */
final class BoostedTrees implements Learner {
    static final String KIND = "boosted-trees";

    /** Leaf values are kept to 1/4096 of a logit: far finer than any leaf is known, and a third of the file. */
    static final double LEAF_STEP = 1.0 / 4096;

    private final int classes;
    private final double[] start;
    private final TreeTable trees;
    private final short[] value;
    private final short[] cover;

    /**
     * @param classes number of classes
     * @param start score of each output before any tree
     * @param trees tree t adds to output t modulo the number of outputs
     * @param value of each leaf, in steps of {@link #LEAF_STEP}
     * @param cover of each leaf: rows it was grown on, as an unsigned 16-bit number
     */
    BoostedTrees(int classes, double[] start, TreeTable trees, short[] value, short[] cover) {
        this.classes = classes;
        this.start = start;
        this.trees = trees;
        this.value = value;
        this.cover = cover;
    }

    static int outputs(int classes) {
        return classes == 2 ? 1 : classes;
    }

    @Override
    public int classes() {
        return classes;
    }

    TreeTable table() {
        return trees;
    }

    double leafValue(int leaf) {
        return value[leaf] * LEAF_STEP;
    }

    double leafCover(int leaf) {
        return Short.toUnsignedInt(cover[leaf]);
    }

    double startScore(int output) {
        return start[output];
    }

    /** Scores on the logit scale, one for each output. */
    double[] scores(float[] x) {
        double[] score = start.clone();
        int outputs = score.length;
        for (int tree = 0, output = 0; tree < trees.trees(); tree++) {
            score[output] += value[trees.leaf(tree, x)] * LEAF_STEP;
            output = output + 1 == outputs ? 0 : output + 1;
        }
        return score;
    }

    @Override
    public double[] probabilities(float[] x) {
        double[] score = scores(x);
        if (classes == 2) {
            double p = Softmax.logistic(score[0]);
            return new double[] {1 - p, p};
        }
        return Softmax.inPlace(score);
    }

    @Override
    public String kind() {
        return KIND;
    }

    @Override
    public void write(DataOutput out) throws IOException {
        out.writeInt(classes);
        for (double s : start) {
            out.writeDouble(s);
        }
        trees.write(out);
        for (short v : value) {
            out.writeShort(v);
        }
        for (short c : cover) {
            out.writeShort(c);
        }
    }

    static BoostedTrees read(DataInput in, int features) throws IOException {
        int classes = Numbers.readCount(in, "classes", 2, 100);
        double[] start = new double[outputs(classes)];
        for (int i = 0; i < start.length; i++) {
            start[i] = Numbers.readDouble(in);
        }
        TreeTable trees = TreeTable.read(in, features);
        short[] value = new short[trees.leaves()];
        short[] cover = new short[trees.leaves()];
        for (int i = 0; i < value.length; i++) {
            value[i] = in.readShort();
        }
        for (int i = 0; i < cover.length; i++) {
            cover[i] = in.readShort();
        }
        return new BoostedTrees(classes, start, trees, value, cover);
    }
}
