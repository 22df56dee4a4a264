package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.Arrays;

/**
 * Binary decision trees as plain number arrays: the common body of {@link BoostedTrees} and {@link CountForest}.
 *
 * <p>Nodes of all trees stand in one table in preorder, so the child taken when {@code x[feature] <= threshold} is always the next node and only the other one is
 * stored. A leaf has feature -1 and its {@code other} is the number of the leaf, counted over all trees in the same order. Because children follow their parents, a table
 * that was read from a file cannot hold a cycle.
 */
final class TreeTable {
    /** Deeper trees are refused on reading: no trainer of ours makes them. */
    static final int MAX_DEPTH = 64;

    /** More nodes than this are refused on reading. */
    static final int MAX_NODES = 2_000_000;

    private static final int LEAF = -1;

    private final int[] roots;
    private final short[] feature;
    private final float[] threshold;
    private final int[] other;
    private final int leaves;

    private TreeTable(int[] roots, short[] feature, float[] threshold, int[] other, int leaves) {
        this.roots = roots;
        this.feature = feature;
        this.threshold = threshold;
        this.other = other;
        this.leaves = leaves;
    }

    int trees() {
        return roots.length;
    }

    int leaves() {
        return leaves;
    }

    int nodes() {
        return feature.length;
    }

    int root(int tree) {
        return roots[tree];
    }

    boolean isLeaf(int node) {
        return feature[node] == LEAF;
    }

    int feature(int node) {
        return feature[node];
    }

    float threshold(int node) {
        return threshold[node];
    }

    /** The child for {@code x[feature] <= threshold}. */
    int lowChild(int node) {
        return node + 1;
    }

    int highChild(int node) {
        return other[node];
    }

    int leafOf(int node) {
        return other[node];
    }

    /** The leaf of a tree that a feature vector falls into. */
    int leaf(int tree, float[] x) {
        int node = roots[tree];
        while (feature[node] != LEAF) {
            node = x[feature[node]] <= threshold[node] ? node + 1 : other[node];
        }
        return other[node];
    }

    /** Writes the trees in preorder: two bytes of feature, and for an inner node four bytes of threshold. */
    void write(DataOutput out) throws IOException {
        out.writeInt(roots.length);
        out.writeInt(feature.length);
        for (short f : feature) {
            out.writeShort(f);
        }
        for (int node = 0; node < feature.length; node++) {
            if (feature[node] != LEAF) {
                out.writeFloat(threshold[node]);
            }
        }
    }

    /**
     * Reads what {@link #write} wrote.
     *
     * @param features length of the feature vectors these trees may ask for
     * @throws lungwort.BadInput if a count, a feature or a threshold is impossible
     */
    static TreeTable read(DataInput in, int features) throws IOException {
        int trees = in.readInt();
        int nodes = in.readInt();
        if (trees < 1 || nodes < trees || nodes > MAX_NODES) {
            throw Numbers.damaged("%d trees with %d nodes", trees, nodes);
        }
        short[] feature = new short[nodes];
        for (int i = 0; i < nodes; i++) {
            feature[i] = in.readShort();
            if (feature[i] < LEAF || feature[i] >= features) {
                throw Numbers.damaged("a tree asks for feature %d of %d", feature[i], features);
            }
        }
        float[] threshold = new float[nodes];
        for (int i = 0; i < nodes; i++) {
            if (feature[i] != LEAF) {
                threshold[i] = in.readFloat();
                if (!Float.isFinite(threshold[i])) {
                    throw Numbers.damaged("a tree's threshold is not a number;" + " fetch or train it again.");
                }
            }
        }
        return link(trees, feature, threshold);
    }

    /** Finds roots and second children from the preorder alone. */
    private static TreeTable link(int trees, short[] feature, float[] threshold) {
        int[] roots = new int[trees];
        int[] other = new int[feature.length];
        int[] open = new int[MAX_DEPTH + 1];
        int next = 0;
        int leaves = 0;
        for (int tree = 0; tree < trees; tree++) {
            roots[tree] = next;
            int depth = 0;
            boolean done = false;
            while (!done) {
                if (next >= feature.length || depth > MAX_DEPTH) {
                    throw Numbers.damaged("tree %d has no end", tree);
                }
                if (feature[next] != LEAF) {
                    if (depth == MAX_DEPTH) {
                        throw Numbers.damaged("tree %d is deeper than %d", tree, MAX_DEPTH);
                    }
                    open[depth++] = next++;
                    continue;
                }
                other[next++] = leaves++;
                // Close every inner node whose second child has just ended, then start the second child of the one
                // above.
                while (depth > 0 && open[depth - 1] < 0) {
                    depth--;
                }
                if (depth == 0) {
                    done = true;
                } else {
                    other[open[depth - 1]] = next;
                    open[depth - 1] = -1;
                }
            }
        }
        if (next != feature.length) {
            throw Numbers.damaged("%d of %d tree nodes are used", next, feature.length);
        }
        return new TreeTable(roots, feature, threshold, other, leaves);
    }

    /** Collects nodes in preorder. */
    static final class Builder {
        private short[] feature = new short[1024];
        private float[] threshold = new float[1024];
        private int nodes;
        private int trees;

        /** Starts the next tree. */
        void startTree() {
            trees++;
        }

        /** Adds an inner node; its low child's nodes follow, then its high child's. */
        void inner(int index, float limit) {
            add((short) index, limit);
        }

        /** Adds a leaf. */
        void leaf() {
            add((short) LEAF, 0);
        }

        private void add(short index, float limit) {
            if (nodes == feature.length) {
                feature = Arrays.copyOf(feature, 2 * nodes);
                threshold = Arrays.copyOf(threshold, 2 * nodes);
            }
            feature[nodes] = index;
            threshold[nodes++] = limit;
        }

        TreeTable build() {
            return link(trees, Arrays.copyOf(feature, nodes), Arrays.copyOf(threshold, nodes));
        }
    }
}
