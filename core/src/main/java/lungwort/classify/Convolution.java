package lungwort.classify;

/**
 * Convolution of planes with kernels of 3 x 3, and its two gradients. A plane is {@code rows * columns} numbers, row after row, zero all around.
 *
 * <p>A plane is first laid out as its nine {@link #shifts}, so that the tap of each is found at the same place as the number that it adds to, and is cut into stretches of whole rows that fit the fastest cache. Only such loops are
 * turned into instructions that work on many numbers at once (two to five times as fast as reading one plane at nine places, measured once with Java 17). All add in a fixed order.
 */
final class Convolution {
    static final int TAPS = 9;

    private static final int SIDE = 3;

    /** Longest stretch, unless a row is longer. */
    private static final int STRETCH = 512;

    private final int rows;
    private final int columns;
    private final int stretch;
    private final int stretches;

    /**
     * @param rows of a plane
     * @param columns of a plane
     */
    Convolution(int rows, int columns) {
        this.rows = rows;
        this.columns = columns;
        int together = 1;
        for (int r = 1; r <= rows; r++) {
            if (rows % r == 0 && r * columns <= STRETCH) {
                together = r;
            }
        }
        stretch = together * columns;
        stretches = rows / together;
    }

    int rows() {
        return rows;
    }

    int columns() {
        return columns;
    }

    int size() {
        return rows * columns;
    }

    /** Room for {@link #shifts} of one plane. */
    float[][][] room() {
        return new float[TAPS][stretches][stretch];
    }

    /**
     * Lays a plane out.
     *
     * @param plane shape {@code [size]}
     * @param shifts for tap {@code 3 (dy + 1) + dx + 1} at {@code [tap]} the plane's number {@code dy} rows below and {@code dx} columns to the right of each place; shape of {@link #room}, written whole
     */
    void shifts(float[] plane, float[][][] shifts) {
        int together = stretch / columns;
        for (int tap = 0; tap < TAPS; tap++) {
            int dx = tap % SIDE - 1;
            for (int y = 0; y < rows; y++) {
                float[] to = shifts[tap][y / together];
                int at = y % together * columns;
                int from = y + tap / SIDE - 1;
                if (from < 0 || from >= rows) {
                    java.util.Arrays.fill(to, at, at + columns, 0);
                    continue;
                }
                int left = Math.max(0, -dx);
                System.arraycopy(plane, from * columns + Math.max(0, dx), to, at + left, columns - Math.abs(dx));
                if (dx < 0) {
                    to[at] = 0;
                } else if (dx > 0) {
                    to[at + columns - 1] = 0;
                }
            }
        }
    }

    /** {@link #shifts} of each plane in new room. */
    float[][][][] shifts(float[][] planes) {
        float[][][][] all = new float[planes.length][][][];
        for (int i = 0; i < planes.length; i++) {
            all[i] = room();
            shifts(planes[i], all[i]);
        }
        return all;
    }

    /**
     * Each output plane is the sum over input planes, each convolved with its kernel (as a correlation: no tap is flipped).
     *
     * @param in {@link #shifts} of each input plane
     * @param kernels tap {@code k} from input {@code i} to output {@code o} at {@code (o * inputs + i) * TAPS + k}
     * @param out shape {@code [outputs][size]}, written whole
     */
    void apply(float[][][][] in, float[] kernels, float[][] out) {
        float[] a = new float[stretch];
        float[] b = new float[stretch];
        int each = in.length * TAPS;
        for (int o = 0; o < out.length; o += 2) {
            int second = Math.min(o + 1, out.length - 1);
            for (int s = 0; s < stretches; s++) {
                java.util.Arrays.fill(a, 0);
                java.util.Arrays.fill(b, 0);
                for (int i = 0; i < in.length; i++) {
                    for (int k = 0; k < TAPS; k += SIDE) {
                        int tap = i * TAPS + k;
                        addThree(
                                in[i][k][s],
                                in[i][k + 1][s],
                                in[i][k + 2][s],
                                kernels[o * each + tap],
                                kernels[o * each + tap + 1],
                                kernels[o * each + tap + 2],
                                a,
                                kernels[second * each + tap],
                                kernels[second * each + tap + 1],
                                kernels[second * each + tap + 2],
                                b);
                    }
                }
                System.arraycopy(a, 0, out[o], s * stretch, stretch);
                System.arraycopy(b, 0, out[second], s * stretch, stretch);
            }
        }
    }

    private static void addThree(
            float[] x,
            float[] y,
            float[] z,
            float u,
            float v,
            float w,
            float[] a,
            float p,
            float q,
            float r,
            float[] b) {
        for (int t = 0; t < a.length; t++) {
            a[t] += u * x[t] + v * y[t] + w * z[t];
            b[t] += p * x[t] + q * y[t] + r * z[t];
        }
    }

    /**
     * The kernels by which a gradient of the output planes, itself laid out and {@link #apply applied}, gives that of the input planes.
     *
     * @param kernels as for {@link #apply}
     */
    static float[] turned(float[] kernels, int inputs, int outputs) {
        float[] turned = new float[kernels.length];
        for (int o = 0; o < outputs; o++) {
            for (int i = 0; i < inputs; i++) {
                for (int k = 0; k < TAPS; k++) {
                    turned[(i * outputs + o) * TAPS + TAPS - 1 - k] = kernels[(o * inputs + i) * TAPS + k];
                }
            }
        }
        return turned;
    }

    /**
     * A plane cut into stretches.
     *
     * @param plane shape {@code [size]}
     */
    float[][] cut(float[] plane) {
        float[][] cut = new float[stretches][];
        for (int s = 0; s < stretches; s++) {
            cut[s] = java.util.Arrays.copyOfRange(plane, s * stretch, (s + 1) * stretch);
        }
        return cut;
    }

    /** Room for what {@link #kernelGradient} adds up for one kernel. */
    float[][] kernelRoom() {
        return new float[TAPS][stretch];
    }

    /**
     * Adds, place by place, what an input plane and the gradient of an output plane give the kernel between them; the sum over all places is the kernel's gradient.
     *
     * @param in {@link #shifts} of the input plane
     * @param gradient of the output plane, {@link #cut}
     * @param sums shape of {@link #kernelRoom}
     */
    void kernelGradient(float[][][] in, float[][] gradient, float[][] sums) {
        for (int k = 0; k < TAPS; k++) {
            int s = 0;
            for (; s + 1 < stretches; s += 2) {
                addTwo(in[k][s], gradient[s], in[k][s + 1], gradient[s + 1], sums[k]);
            }
            if (s < stretches) {
                addOne(in[k][s], gradient[s], sums[k]);
            }
        }
    }

    private static void addTwo(float[] x, float[] g, float[] y, float[] h, float[] sums) {
        for (int t = 0; t < sums.length; t++) {
            sums[t] += x[t] * g[t] + y[t] * h[t];
        }
    }

    private static void addOne(float[] x, float[] g, float[] sums) {
        for (int t = 0; t < sums.length; t++) {
            sums[t] += x[t] * g[t];
        }
    }
}
