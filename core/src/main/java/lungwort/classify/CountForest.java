package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;

/**
 * A random forest whose leaves keep the number of training rows of each class, so that its probabilities are those of the library that grew it to the last bit.
 *
 * <p>Breiman, Random forests, Machine Learning 45 (2001); a leaf's probability of class c is (count + 1) / (rows + classes), trees are weighted.
 */
final class CountForest implements Learner {
    static final String KIND = "forest";

    private final int classes;
    private final TreeTable trees;
    private final double[] weight;
    private final short[] count;

    /**
     * @param classes number of classes
     * @param trees the trees
     * @param weight of each tree
     * @param count unsigned rows of each class in each leaf, leaf by leaf
     */
    CountForest(int classes, TreeTable trees, double[] weight, short[] count) {
        this.classes = classes;
        this.trees = trees;
        this.weight = weight;
        this.count = count;
    }

    @Override
    public int classes() {
        return classes;
    }

    @Override
    public double[] probabilities(float[] x) {
        double[] sum = new double[classes];
        for (int tree = 0; tree < weight.length; tree++) {
            int at = trees.leaf(tree, x) * classes;
            int rows = 0;
            for (int c = 0; c < classes; c++) {
                rows += Short.toUnsignedInt(count[at + c]);
            }
            double total = rows + classes;
            for (int c = 0; c < classes; c++) {
                sum[c] += weight[tree] * ((Short.toUnsignedInt(count[at + c]) + 1) / total);
            }
        }
        double total = 0;
        for (double s : sum) {
            total += s;
        }
        for (int c = 0; c < classes; c++) {
            sum[c] /= total;
        }
        return sum;
    }

    @Override
    public String kind() {
        return KIND;
    }

    @Override
    public void write(DataOutput out) throws IOException {
        out.writeInt(classes);
        trees.write(out);
        for (double w : weight) {
            out.writeDouble(w);
        }
        for (short c : count) {
            out.writeShort(c);
        }
    }

    static CountForest read(DataInput in, int features) throws IOException {
        int classes = Numbers.readCount(in, "classes", 2, 100);
        TreeTable trees = TreeTable.read(in, features);
        double[] weight = new double[trees.trees()];
        for (int i = 0; i < weight.length; i++) {
            weight[i] = Numbers.readDouble(in);
        }
        short[] count = new short[Math.multiplyExact(trees.leaves(), classes)];
        for (int i = 0; i < count.length; i++) {
            count[i] = in.readShort();
        }
        return new CountForest(classes, trees, weight, count);
    }
}
