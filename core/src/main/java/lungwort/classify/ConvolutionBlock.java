package lungwort.classify;

import java.util.SplittableRandom;

/**
 * One block of a {@link ChestNet} in training: convolution, batch normalisation (Ioffe and Szegedy 2015), rectifier, and the largest of each field of bands and frames. Works on whole batches; what the way back
 * needs is kept from the way there.
 */
final class ConvolutionBlock {
    static final float EPSILON = 1e-5f;

    private static final double MOMENTUM = 0.1;

    final AdamWeights kernels;
    final AdamWeights gain;
    final AdamWeights shift;
    final float[] runningMean;
    final float[] runningVariance;

    private final int inputs;
    private final int outputs;
    private final Convolution shape;
    private final int poolRows;
    private final int poolColumns;
    private final int rowsOut;
    private final int columnsOut;
    private final float[] inverse;
    private final float[][][] normal;
    private final float[][][][][] in;
    private final float[][][] out;
    private final int[][][] largest;

    /**
     * @param batch recordings at a time
     * @param inputs planes in
     * @param outputs planes out
     * @param shape of the planes in
     * @param poolRows bands of a field
     * @param poolColumns frames of a field
     */
    ConvolutionBlock(
            int batch,
            int inputs,
            int outputs,
            Convolution shape,
            int poolRows,
            int poolColumns,
            SplittableRandom random) {
        this.inputs = inputs;
        this.outputs = outputs;
        this.shape = shape;
        this.poolRows = poolRows;
        this.poolColumns = poolColumns;
        this.rowsOut = shape.rows() / poolRows;
        this.columnsOut = shape.columns() / poolColumns;
        kernels = new AdamWeights(
                outputs * inputs * Convolution.TAPS, Math.sqrt(2.0 / (inputs * Convolution.TAPS)), random);
        gain = new AdamWeights(outputs, 0, random);
        java.util.Arrays.fill(gain.value, 1);
        shift = new AdamWeights(outputs, 0, random);
        runningMean = new float[outputs];
        runningVariance = new float[outputs];
        java.util.Arrays.fill(runningVariance, 1);
        inverse = new float[outputs];
        in = new float[batch][inputs][][][];
        for (float[][][][] one : in) {
            java.util.Arrays.setAll(one, i -> shape.room());
        }
        normal = new float[batch][outputs][shape.size()];
        out = new float[batch][outputs][rowsOut * columnsOut];
        largest = new int[batch][outputs][rowsOut * columnsOut];
    }

    int rowsOut() {
        return rowsOut;
    }

    int columnsOut() {
        return columnsOut;
    }

    /** Planes out, shape {@code [batch][outputs][rowsOut * columnsOut]}; overwritten by the next {@link #forward}. */
    float[][][] out() {
        return out;
    }

    /** @param planes shape {@code [batch][inputs][rows * columns]} */
    void forward(float[][][] planes) {
        for (int b = 0; b < in.length; b++) {
            for (int i = 0; i < inputs; i++) {
                shape.shifts(planes[b][i], in[b][i]);
            }
            shape.apply(in[b], kernels.value, normal[b]);
        }
        for (int o = 0; o < outputs; o++) {
            normalise(o);
            for (int b = 0; b < in.length; b++) {
                pool(normal[b][o], gain.value[o], shift.value[o], out[b][o], largest[b][o]);
            }
        }
    }

    private void normalise(int o) {
        double sum = 0;
        double squares = 0;
        for (float[][] one : normal) {
            for (float v : one[o]) {
                sum += v;
                squares += (double) v * v;
            }
        }
        double n = (double) normal.length * shape.size();
        double mean = sum / n;
        double variance = Math.max(0, squares / n - mean * mean);
        runningMean[o] += (float) (MOMENTUM * (mean - runningMean[o]));
        runningVariance[o] += (float) (MOMENTUM * (variance * n / (n - 1) - runningVariance[o]));
        inverse[o] = (float) (1 / Math.sqrt(variance + EPSILON));
        float m = (float) mean;
        float s = inverse[o];
        for (float[][] one : normal) {
            float[] plane = one[o];
            for (int p = 0; p < plane.length; p++) {
                plane[p] = (plane[p] - m) * s;
            }
        }
    }

    private void pool(float[] plane, float g, float d, float[] to, int[] at) {
        for (int y = 0; y < rowsOut; y++) {
            for (int t = 0; t < columnsOut; t++) {
                int best = y * poolRows * shape.columns() + t * poolColumns;
                float most = g * plane[best] + d;
                for (int r = 0; r < poolRows; r++) {
                    int row = (y * poolRows + r) * shape.columns() + t * poolColumns;
                    for (int c = 0; c < poolColumns; c++) {
                        float v = g * plane[row + c] + d;
                        if (v > most) {
                            most = v;
                            best = row + c;
                        }
                    }
                }
                to[y * columnsOut + t] = Math.max(0, most);
                at[y * columnsOut + t] = best;
            }
        }
    }

    /**
     * Adds to the gradients of the weights.
     *
     * @param gradient of {@link #out}, same shape
     * @param wanted true if the gradient of the planes in is wanted
     * @return that gradient, shape {@code [batch][inputs][rows * columns]}; empty if it is not wanted
     */
    float[][][] backward(float[][][] gradient, boolean wanted) {
        float[][][] dense = new float[in.length][outputs][shape.size()];
        for (int o = 0; o < outputs; o++) {
            spread(gradient, o, dense);
        }
        float[][][] before = new float[wanted ? in.length : 0][inputs][shape.size()];
        float[] turned = Convolution.turned(kernels.value, inputs, outputs);
        float[][][][] cut = new float[in.length][outputs][][];
        for (int b = 0; b < in.length; b++) {
            if (wanted) {
                shape.apply(shape.shifts(dense[b]), turned, before[b]);
            }
            for (int o = 0; o < outputs; o++) {
                cut[b][o] = shape.cut(dense[b][o]);
            }
        }
        for (int i = 0; i < inputs; i++) {
            kernelGradients(i, cut);
        }
        return before;
    }

    private void kernelGradients(int input, float[][][][] gradient) {
        float[][][] sums = new float[outputs][][];
        java.util.Arrays.setAll(sums, o -> shape.kernelRoom());
        for (int b = 0; b < in.length; b++) {
            for (int o = 0; o < outputs; o++) {
                shape.kernelGradient(in[b][input], gradient[b][o], sums[o]);
            }
        }
        for (int o = 0; o < outputs; o++) {
            for (int k = 0; k < Convolution.TAPS; k++) {
                kernels.gradient[(o * inputs + input) * Convolution.TAPS + k] += sum(sums[o][k]);
            }
        }
    }

    private static float sum(float[] values) {
        float sum = 0;
        for (float v : values) {
            sum += v;
        }
        return sum;
    }

    /** From the pooled plane back through rectifier and normalisation. */
    private void spread(float[][][] gradient, int o, float[][][] dense) {
        double sum = 0;
        double along = 0;
        for (int b = 0; b < dense.length; b++) {
            for (int p = 0; p < out[b][o].length; p++) {
                if (out[b][o][p] > 0) {
                    int at = largest[b][o][p];
                    float g = gradient[b][o][p];
                    dense[b][o][at] = g;
                    sum += g;
                    along += (double) g * normal[b][o][at];
                }
            }
        }
        gain.gradient[o] += (float) along;
        shift.gradient[o] += (float) sum;
        double n = (double) dense.length * shape.size();
        float scale = gain.value[o] * inverse[o];
        float mean = (float) (sum / n);
        float slope = (float) (along / n);
        for (int b = 0; b < dense.length; b++) {
            float[] d = dense[b][o];
            float[] z = normal[b][o];
            for (int p = 0; p < d.length; p++) {
                d[p] = scale * (d[p] - mean - z[p] * slope);
            }
        }
    }
}
