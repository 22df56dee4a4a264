package lungwort.classify;

import java.util.Arrays;
import java.util.SplittableRandom;

/** One regression tree grown best-first on histograms. */
final class HistogramTree {
    private static final int WIDTH = 2 * BinnedColumns.BINS;

    /** A node; {@code feature} is -1 while it is a leaf. */
    private static final class Node {
        final int from;
        final int to;
        double gradient;
        double curvature;
        double[] histogram = new double[0];
        double bestGain;
        int bestColumn = -1;
        int bestBin;
        int feature = -1;
        float threshold;
        int low;
        int high;
        double value;

        Node(int from, int to) {
            this.from = from;
            this.to = to;
        }

        int rows() {
            return to - from;
        }
    }

    private final BinnedColumns data;
    private final double[] gh;
    private final Boosting.Settings settings;
    private final int[] columns;
    private final int[] rows;
    private final int[] spare;
    private final Node[] nodes;
    private int size;

    private HistogramTree(BinnedColumns data, double[] gh, Boosting.Settings settings, SplittableRandom random) {
        this.data = data;
        this.gh = gh;
        this.settings = settings;
        this.columns = sample(data.columns(), settings.columnShare(), random);
        this.rows = sample(data.rows(), settings.rowShare(), random);
        this.spare = new int[rows.length];
        this.nodes = new Node[2 * settings.leaves() - 1];
    }

    /**
     * Grows one tree.
     *
     * @param gh first and second derivative of each row, interleaved
     */
    static HistogramTree grow(BinnedColumns data, double[] gh, Boosting.Settings settings, SplittableRandom random) {
        HistogramTree tree = new HistogramTree(data, gh, settings, random);
        tree.grow();
        return tree;
    }

    /** A sorted sample without replacement. */
    private static int[] sample(int n, double share, SplittableRandom random) {
        int wanted = Math.max(1, (int) Math.round(share * n));
        int[] chosen = new int[wanted];
        int taken = 0;
        for (int i = 0; i < n && taken < wanted; i++) {
            if (random.nextInt(n - i) < wanted - taken) {
                chosen[taken++] = i;
            }
        }
        return chosen;
    }

    private void grow() {
        Node root = add(new Node(0, rows.length));
        root.histogram = histogram(root);
        findSplit(root);
        for (int leaves = 1; leaves < settings.leaves(); leaves++) {
            Node best = bestLeaf();
            if (best == null) {
                break;
            }
            split(best);
        }
        for (int i = 0; i < size; i++) {
            nodes[i].histogram = new double[0];
            double raw = -settings.learningRate() * nodes[i].gradient / (nodes[i].curvature + settings.l2());
            nodes[i].value = quantised(raw) * BoostedTrees.LEAF_STEP;
        }
    }

    private static short quantised(double value) {
        long steps = Math.round(value / BoostedTrees.LEAF_STEP);
        return (short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, steps));
    }

    private Node add(Node node) {
        for (int i = node.from; i < node.to; i++) {
            node.gradient += gh[2 * rows[i]];
            node.curvature += gh[2 * rows[i] + 1];
        }
        nodes[size++] = node;
        return node;
    }

    private @org.jspecify.annotations.Nullable Node bestLeaf() {
        Node best = null;
        for (int i = 0; i < size; i++) {
            Node node = nodes[i];
            if (node.feature < 0 && node.bestColumn >= 0 && (best == null || node.bestGain > best.bestGain)) {
                best = node;
            }
        }
        return best;
    }

    private void split(Node node) {
        int column = columns[node.bestColumn];
        byte[] bins = data.column(column);
        int low = node.from;
        int high = 0;
        for (int i = node.from; i < node.to; i++) {
            int row = rows[i];
            if (bins[row] <= node.bestBin) {
                rows[low++] = row;
            } else {
                spare[high++] = row;
            }
        }
        System.arraycopy(spare, 0, rows, low, high);
        node.feature = column;
        node.threshold = data.edge(column, node.bestBin);
        node.low = size;
        Node a = add(new Node(node.from, low));
        node.high = size;
        Node b = add(new Node(low, node.to));
        shareHistogram(node, a, b);
        findSplit(a);
        findSplit(b);
    }

    /** Counts the smaller child and gets the larger by subtraction. */
    private void shareHistogram(Node parent, Node a, Node b) {
        Node small = a.rows() <= b.rows() ? a : b;
        Node large = small == a ? b : a;
        small.histogram = histogram(small);
        double[] rest = parent.histogram;
        for (int i = 0; i < rest.length; i++) {
            rest[i] -= small.histogram[i];
        }
        large.histogram = rest;
        parent.histogram = new double[0];
    }

    private double[] histogram(Node node) {
        int n = node.rows();
        double[] local = new double[2 * n];
        for (int i = 0; i < n; i++) {
            int row = rows[node.from + i];
            local[2 * i] = gh[2 * row];
            local[2 * i + 1] = gh[2 * row + 1];
        }
        double[] histogram = new double[columns.length * WIDTH];
        for (int c = 0; c < columns.length; c++) {
            byte[] bins = data.column(columns[c]);
            int base = c * WIDTH;
            for (int i = 0; i < n; i++) {
                int at = base + 2 * bins[rows[node.from + i]];
                histogram[at] += local[2 * i];
                histogram[at + 1] += local[2 * i + 1];
            }
        }
        return histogram;
    }

    private void findSplit(Node node) {
        node.bestColumn = -1;
        node.bestGain = 1e-9;
        if (node.rows() < 2 * settings.minLeafRows()) {
            return;
        }
        double l2 = settings.l2();
        double whole = node.gradient * node.gradient / (node.curvature + l2);
        // Rows in a side are judged by their share of curvature: an exact count would double the histogram.
        double minCurvature = node.curvature * settings.minLeafRows() / node.rows();
        for (int c = 0; c < columns.length; c++) {
            int edges = data.edges(columns[c]);
            double g = 0;
            double h = 0;
            for (int b = 0; b < edges; b++) {
                g += node.histogram[c * WIDTH + 2 * b];
                h += node.histogram[c * WIDTH + 2 * b + 1];
                double g2 = node.gradient - g;
                double h2 = node.curvature - h;
                if (h < minCurvature || h2 < minCurvature) {
                    continue;
                }
                double gain = g * g / (h + l2) + g2 * g2 / (h2 + l2) - whole;
                if (gain > node.bestGain) {
                    node.bestGain = gain;
                    node.bestColumn = c;
                    node.bestBin = b;
                }
            }
        }
    }

    int leaves() {
        return (size + 1) / 2;
    }

    /** Adds this tree's value to the score of every row, those it was not grown on too. */
    void addTo(double[] score, BinnedColumns columnsOfAll) {
        for (int row = 0; row < score.length; row++) {
            Node node = nodes[0];
            while (node.feature >= 0) {
                node = columnsOfAll.column(node.feature)[row] <= node.bestBin ? nodes[node.low] : nodes[node.high];
            }
            score[row] += node.value;
        }
    }

    /** Writes nodes and leaves in preorder and returns the next free leaf. */
    int pack(TreeTable.Builder table, short[] value, short[] cover, int firstLeaf) {
        table.startTree();
        return pack(nodes[0], table, value, cover, firstLeaf);
    }

    private int pack(Node node, TreeTable.Builder table, short[] value, short[] cover, int leaf) {
        if (node.feature < 0) {
            table.leaf();
            value[leaf] = quantised(node.value);
            cover[leaf] = (short) Math.min(65_535, Math.max(1, node.rows()));
            return leaf + 1;
        }
        table.inner(node.feature, node.threshold);
        int next = pack(nodes[node.low], table, value, cover, leaf);
        return pack(nodes[node.high], table, value, cover, next);
    }

    @Override
    public String toString() {
        return "HistogramTree" + Arrays.toString(columns);
    }
}
