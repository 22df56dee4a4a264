package lungwort.classify;

import java.util.Arrays;
import java.util.stream.IntStream;

/** Features cut into at most {@value #BINS} bins each at quantiles of the training rows; a bin's upper edge is a value met in training, so cuts are exact floats. */
final class BinnedColumns {
    /** Most bins of a feature. */
    static final int BINS = 64;

    private final byte[][] bin;
    private final float[][] edge;

    private BinnedColumns(byte[][] bin, float[][] edge) {
        this.bin = bin;
        this.edge = edge;
    }

    static BinnedColumns of(float[][] x) {
        int columns = x[0].length;
        byte[][] bin = new byte[columns][];
        float[][] edge = new float[columns][];
        IntStream.range(0, columns).parallel().forEach(j -> {
            float[] column = new float[x.length];
            for (int i = 0; i < x.length; i++) {
                column[i] = x[i][j];
            }
            edge[j] = edges(column.clone());
            bin[j] = bins(column, edge[j]);
        });
        return new BinnedColumns(bin, edge);
    }

    /** Upper edges of all bins but the last, strictly rising. */
    private static float[] edges(float[] column) {
        Arrays.sort(column);
        float[] edges = new float[BINS - 1];
        int n = 0;
        for (int b = 1; b < BINS; b++) {
            float value = column[(int) ((long) b * (column.length - 1) / BINS)];
            boolean fresh = n == 0 || value > edges[n - 1];
            if (fresh && value < column[column.length - 1]) {
                edges[n++] = value;
            }
        }
        return Arrays.copyOf(edges, n);
    }

    private static byte[] bins(float[] column, float[] edges) {
        byte[] bins = new byte[column.length];
        for (int i = 0; i < column.length; i++) {
            int found = Arrays.binarySearch(edges, column[i]);
            bins[i] = (byte) (found >= 0 ? found : -found - 1);
        }
        return bins;
    }

    int columns() {
        return bin.length;
    }

    int rows() {
        return bin[0].length;
    }

    byte[] column(int j) {
        return bin[j];
    }

    /** Rows with {@code bin <= b} are exactly those with {@code value <= edge(j, b)}. */
    float edge(int j, int b) {
        return edge[j][b];
    }

    /** Number of edges of a feature: one less than its bins. */
    int edges(int j) {
        return edge[j].length;
    }
}
