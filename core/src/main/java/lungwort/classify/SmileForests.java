package lungwort.classify;

import java.util.Arrays;
import java.util.stream.LongStream;
import lungwort.BadInput;
import smile.base.cart.DecisionNode;
import smile.base.cart.InternalNode;
import smile.base.cart.LeafNode;
import smile.base.cart.Node;
import smile.base.cart.SplitRule;
import smile.classification.RandomForest;
import smile.data.DataFrame;
import smile.data.Tuple;
import smile.data.formula.Formula;
import smile.data.vector.IntVector;

/** Grows random forests with Smile and turns them into {@link CountForest}. */
final class SmileForests {
    private static final String CLASS_COLUMN = "class";

    private SmileForests() {}

    /**
     * How to grow.
     *
     * @param trees number of trees
     * @param columns features tried at each node; 0 takes the square root of their number
     * @param leaves most leaves of a tree
     * @param minLeafRows fewest rows in a leaf
     * @param rowShare share of rows each tree sees, drawn without replacement; 1 draws with replacement
     * @param seed of every draw
     */
    record Settings(int trees, int columns, int leaves, int minLeafRows, double rowShare, long seed) {}

    /**
     * Grows a forest. Classes without a row get no more than the leaves give to chance. The result does not depend on the number of threads: each tree has its own seed.
     *
     * @throws BadInput if all rows are of one class
     */
    static CountForest fit(float[][] x, int[] y, int classes, Settings s) {
        // The library numbers those classes that it meets, and measures two of them only if they are called 0 and 1.
        int[] met = Arrays.stream(y).distinct().sorted().toArray();
        if (met.length < 2) {
            throw new BadInput(
                    "Some part of the recordings to learn from holds only one class of sound, from which a forest learns nothing; learn from more recordings, or by a recipe without forests.");
        }
        int[] place = Arrays.stream(y).map(c -> Arrays.binarySearch(met, c)).toArray();
        return convert(grow(x, place, s), x[0].length, classes, met);
    }

    /** The library's own forest. */
    static RandomForest grow(float[][] x, int[] y, Settings s) {
        // Smile seeds a tree only if its seed is above 1, so seeds start at 2.
        long first = 2 + Math.floorMod(s.seed, 1_000_000L) * 100_000L;
        return RandomForest.fit(
                Formula.lhs(CLASS_COLUMN),
                frame(x, y),
                s.trees,
                s.columns,
                SplitRule.GINI,
                TreeTable.MAX_DEPTH - 4,
                s.leaves,
                s.minLeafRows,
                s.rowShare,
                null,
                LongStream.range(first, first + s.trees));
    }

    static DataFrame frame(float[][] x, int[] y) {
        return DataFrame.of(doubles(x), names(x[0].length)).merge(IntVector.of(CLASS_COLUMN, y));
    }

    private static double[][] doubles(float[][] x) {
        return Arrays.stream(x).map(SmileForests::doubles).toArray(double[][]::new);
    }

    static double[] doubles(float[] x) {
        double[] d = new double[x.length];
        for (int i = 0; i < d.length; i++) {
            d[i] = x[i];
        }
        return d;
    }

    private static String[] names(int n) {
        String[] names = new String[n];
        Arrays.setAll(names, i -> "f" + i);
        return names;
    }

    private static CountForest convert(RandomForest forest, int features, int classes, int[] met) {
        RandomForest.Model[] models = forest.models();
        Packer packer = new Packer(features, classes, met);
        double[] weight = new double[models.length];
        for (int t = 0; t < models.length; t++) {
            packer.table.startTree();
            packer.pack(models[t].tree.root());
            weight[t] = models[t].weight;
        }
        return new CountForest(classes, packer.table.build(), weight, packer.counts());
    }

    /** Walks the library's nodes in preorder. */
    private static final class Packer {
        final TreeTable.Builder table = new TreeTable.Builder();
        private final double[] probe;
        private final int classes;
        private final int[] met;
        private short[] count = new short[4096];
        private int used;

        Packer(int features, int classes, int[] met) {
            this.met = met;
            this.probe = new double[features];
            this.classes = classes;
        }

        void pack(Node node) {
            if (node instanceof InternalNode inner) {
                table.inner(inner.feature(), threshold(inner));
                pack(inner.trueChild());
                pack(inner.falseChild());
            } else if (node instanceof DecisionNode leaf) {
                table.leaf();
                addCounts(leaf.count());
            } else {
                throw new IllegalStateException(LeafNode.class + " expected, not " + node.getClass());
            }
        }

        private void addCounts(int[] rows) {
            if (used + classes > count.length) {
                count = Arrays.copyOf(count, 2 * count.length);
            }
            for (int k = 0; k < met.length; k++) {
                count[used + met[k]] = (short) Math.min(65_535, rows[k]);
            }
            used += classes;
        }

        short[] counts() {
            return Arrays.copyOf(count, used);
        }

        /**
         * The largest float that takes the true branch. The library keeps its split value to itself; asking its public {@code branch} by bisection over all floats finds the
         * value at which every float feature decides exactly as it does.
         */
        private float threshold(InternalNode node) {
            int low = rank(-Float.MAX_VALUE);
            int high = rank(Float.MAX_VALUE);
            while (high - (long) low > 1) {
                int middle = (int) ((low + (long) high) >> 1);
                probe[node.feature()] = unrank(middle);
                if (node.branch(Tuple.of(probe, SCHEMA.forLength(probe.length)))) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            return unrank(low);
        }

        /** Floats in order as integers in order. */
        private static int rank(float value) {
            int bits = Float.floatToIntBits(value);
            return bits >= 0 ? bits : Integer.MIN_VALUE - bits;
        }

        private static float unrank(int rank) {
            return Float.intBitsToFloat(rank >= 0 ? rank : Integer.MIN_VALUE - rank);
        }
    }

    private static final SchemaCache SCHEMA = new SchemaCache();

    /** The last schema made, as making one for hundreds of columns is slow. */
    private static final class SchemaCache {
        private smile.data.type.StructType schema = smile.data.type.DataTypes.struct();

        synchronized smile.data.type.StructType forLength(int n) {
            if (schema.length() != n) {
                schema = DataFrame.of(new double[1][n], names(n)).schema();
            }
            return schema;
        }
    }
}
