package lungwort.classify;

/**
 * Convolution of planes with kernels of 3 x 3, and its two gradients. Planes are padded by one zero all around and flattened: {@link #paddedSize} numbers, row {@code y} and column {@code t} at
 * {@link #padded}. The loops run along time and take all nine taps at once, so that each number is loaded once; they add in a fixed order, with fused rounding.
 *
 * @param rows of a plane
 * @param columns of a plane
 */
record Convolution(int rows, int columns) {
    static final int TAPS = 9;

    private static final int SIDE = 3;

    int size() {
        return rows * columns;
    }

    int paddedSize() {
        return (rows + 2) * (columns + 2);
    }

    int padded(int y, int t) {
        return (y + 1) * (columns + 2) + t + 1;
    }

    /**
     * Adds to {@code out} the sum over input planes of each convolved with its kernel (as a correlation: no tap is flipped).
     *
     * @param in shape {@code [inputs][paddedSize]}
     * @param kernels tap {@code k} of input {@code i} at {@code at + TAPS * i + k}
     * @param out shape {@code [size]}
     */
    void forward(float[][] in, float[] kernels, int at, float[] out) {
        for (int y = 0; y < rows; y++) {
            for (int i = 0; i < in.length; i++) {
                nine(in[i], y * (columns + 2), kernels, at + TAPS * i, 1, out, y * columns);
            }
        }
    }

    /** As {@link #forward}, but for rounding: without fused operations, which Java works out at length where the processor has none. For use; {@link #forward} is for training. */
    void apply(float[][] in, float[] kernels, int at, float[] out) {
        for (int y = 0; y < rows; y++) {
            for (int i = 0; i < in.length; i++) {
                for (int k = 0; k < SIDE; k++) {
                    three(in[i], (y + k) * (columns + 2), kernels, at + TAPS * i + SIDE * k, out, y * columns);
                }
            }
        }
    }

    private void three(float[] in, int from, float[] kernels, int at, float[] out, int to) {
        float w0 = kernels[at];
        float w1 = kernels[at + 1];
        float w2 = kernels[at + 2];
        for (int t = 0; t < columns; t++) {
            out[to + t] += w0 * in[from + t] + w1 * in[from + t + 1] + w2 * in[from + t + 2];
        }
    }

    /**
     * Adds to {@code out} what one output plane's gradient gives one input plane.
     *
     * @param gradient of the output plane, shape {@code [paddedSize]}, zero all around
     * @param kernels the kernel from that input to that output begins at {@code at}
     * @param out gradient of the input plane, shape {@code [size]}
     */
    void backward(float[] gradient, float[] kernels, int at, float[] out) {
        for (int y = 0; y < rows; y++) {
            nine(gradient, y * (columns + 2), kernels, at + TAPS - 1, -1, out, y * columns);
        }
    }

    private void nine(float[] in, int base, float[] kernels, int at, int step, float[] out, int to) {
        int a = base;
        int b = base + columns + 2;
        int c = b + columns + 2;
        float w0 = kernels[at];
        float w1 = kernels[at + step];
        float w2 = kernels[at + 2 * step];
        float w3 = kernels[at + 3 * step];
        float w4 = kernels[at + 4 * step];
        float w5 = kernels[at + 5 * step];
        float w6 = kernels[at + 6 * step];
        float w7 = kernels[at + 7 * step];
        float w8 = kernels[at + 8 * step];
        for (int t = 0; t < columns; t++) {
            float sum = Math.fma(w0, in[a + t], out[to + t]);
            sum = Math.fma(w1, in[a + t + 1], sum);
            sum = Math.fma(w2, in[a + t + 2], sum);
            sum = Math.fma(w3, in[b + t], sum);
            sum = Math.fma(w4, in[b + t + 1], sum);
            sum = Math.fma(w5, in[b + t + 2], sum);
            sum = Math.fma(w6, in[c + t], sum);
            sum = Math.fma(w7, in[c + t + 1], sum);
            out[to + t] = Math.fma(w8, in[c + t + 2], sum);
        }
    }

    /**
     * Adds to a kernel's gradient what its input plane and the gradient of its output plane give.
     *
     * @param in shape {@code [paddedSize]}
     * @param gradient of the output plane, shape {@code [paddedSize]}
     * @param kernelGradients the kernel's begins at {@code at}
     */
    void kernelGradient(float[] in, float[] gradient, float[] kernelGradients, int at) {
        for (int y = 0; y < rows; y++) {
            row(in, y * (columns + 2), gradient, padded(y, 0), kernelGradients, at);
        }
    }

    private void row(float[] in, int base, float[] gradient, int from, float[] kernelGradients, int at) {
        int a = base;
        int b = base + columns + 2;
        int c = b + columns + 2;
        float s0 = 0;
        float s1 = 0;
        float s2 = 0;
        float s3 = 0;
        float s4 = 0;
        float s5 = 0;
        float s6 = 0;
        float s7 = 0;
        float s8 = 0;
        for (int t = 0; t < columns; t++) {
            float g = gradient[from + t];
            s0 = Math.fma(g, in[a + t], s0);
            s1 = Math.fma(g, in[a + t + 1], s1);
            s2 = Math.fma(g, in[a + t + 2], s2);
            s3 = Math.fma(g, in[b + t], s3);
            s4 = Math.fma(g, in[b + t + 1], s4);
            s5 = Math.fma(g, in[b + t + 2], s5);
            s6 = Math.fma(g, in[c + t], s6);
            s7 = Math.fma(g, in[c + t + 1], s7);
            s8 = Math.fma(g, in[c + t + 2], s8);
        }
        kernelGradients[at] += s0;
        kernelGradients[at + 1] += s1;
        kernelGradients[at + 2] += s2;
        kernelGradients[at + 3] += s3;
        kernelGradients[at + 4] += s4;
        kernelGradients[at + 5] += s5;
        kernelGradients[at + 6] += s6;
        kernelGradients[at + 7] += s7;
        kernelGradients[at + 8] += s8;
    }
}
