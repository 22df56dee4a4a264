package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ConvolutionTest {
    private static float[] drawn(int n, SplittableRandom random) {
        float[] values = new float[n];
        for (int i = 0; i < n; i++) {
            values[i] = (float) random.nextGaussian();
        }
        return values;
    }

    private static float[][] planes(int n, Convolution shape, SplittableRandom random) {
        float[][] planes = new float[n][];
        for (int i = 0; i < n; i++) {
            planes[i] = drawn(shape.size(), random);
        }
        return planes;
    }

    private static double at(float[] plane, Convolution shape, int y, int t) {
        return y < 0 || t < 0 || y >= shape.rows() || t >= shape.columns() ? 0 : plane[y * shape.columns() + t];
    }

    /** Against the sum over nine taps, written as in a textbook: planes of one stretch, of several rows together, and of rows that are a stretch each; of one output and of several. */
    @ParameterizedTest
    @CsvSource({"5, 7, 1", "5, 7, 3", "6, 200, 2", "3, 600, 2", "1, 1, 1"})
    void isTheSumOverNineTaps(int rows, int columns, int outputs) {
        SplittableRandom random = new SplittableRandom(1);
        Convolution shape = new Convolution(rows, columns);
        float[][] in = planes(2, shape, random);
        float[] kernels = drawn(outputs * 2 * Convolution.TAPS, random);
        float[][] out = new float[outputs][shape.size()];
        shape.apply(shape.shifts(in), kernels, out);
        for (int o = 0; o < outputs; o++) {
            for (int y = 0; y < rows; y++) {
                for (int t = 0; t < columns; t++) {
                    double sum = 0;
                    for (int i = 0; i < 2; i++) {
                        for (int k = 0; k < Convolution.TAPS; k++) {
                            sum += kernels[(o * 2 + i) * Convolution.TAPS + k]
                                    * at(in[i], shape, y + k / 3 - 1, t + k % 3 - 1);
                        }
                    }
                    assertThat((double) out[o][y * columns + t]).isCloseTo(sum, within(1e-5));
                }
            }
        }
    }

    /** Both gradients are adjoint to the convolution: the inner product of its results with any planes is the same seen from the inputs and from the kernels. */
    @ParameterizedTest
    @CsvSource({"5, 7", "6, 200", "3, 600"})
    void gradientsAreAdjoint(int rows, int columns) {
        SplittableRandom random = new SplittableRandom(2);
        Convolution shape = new Convolution(rows, columns);
        float[][] in = planes(2, shape, random);
        float[][] gradient = planes(3, shape, random);
        float[] kernels = drawn(3 * 2 * Convolution.TAPS, random);
        float[][] out = new float[3][shape.size()];
        float[][][][] shifts = shape.shifts(in);
        shape.apply(shifts, kernels, out);
        float[][] back = new float[2][shape.size()];
        shape.apply(shape.shifts(gradient), Convolution.turned(kernels, 2, 3), back);
        double seenFromKernels = 0;
        for (int o = 0; o < 3; o++) {
            for (int i = 0; i < 2; i++) {
                float[][] sums = shape.kernelRoom();
                shape.kernelGradient(shifts[i], shape.cut(gradient[o]), sums);
                for (int k = 0; k < Convolution.TAPS; k++) {
                    for (float v : sums[k]) {
                        seenFromKernels += (double) v * kernels[(o * 2 + i) * Convolution.TAPS + k];
                    }
                }
            }
        }
        double product = inner(out, gradient);
        double near = 1e-6 * Math.sqrt(inner(out, out) * inner(gradient, gradient));
        assertThat(inner(back, in)).isCloseTo(product, within(near));
        assertThat(seenFromKernels).isCloseTo(product, within(near));
    }

    private static double inner(float[][] a, float[][] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            for (int p = 0; p < a[i].length; p++) {
                sum += (double) a[i][p] * b[i][p];
            }
        }
        return sum;
    }
}
