package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ConvolutionTest {
    private static final Convolution SHAPE = new Convolution(5, 7);

    private static float[] padded(SplittableRandom random) {
        float[] plane = new float[SHAPE.paddedSize()];
        for (int y = 0; y < SHAPE.rows(); y++) {
            for (int t = 0; t < SHAPE.columns(); t++) {
                plane[SHAPE.padded(y, t)] = (float) random.nextGaussian();
            }
        }
        return plane;
    }

    /** Against the sum over nine taps, written as in a textbook. */
    @Test
    void isTheSumOverNineTaps() {
        SplittableRandom random = new SplittableRandom(1);
        float[][] in = {padded(random), padded(random)};
        float[] kernels = new float[2 * Convolution.TAPS];
        for (int k = 0; k < kernels.length; k++) {
            kernels[k] = (float) random.nextGaussian();
        }
        float[] out = new float[SHAPE.size()];
        SHAPE.forward(in, kernels, 0, out);
        for (int y = 0; y < SHAPE.rows(); y++) {
            for (int t = 0; t < SHAPE.columns(); t++) {
                double sum = 0;
                for (int i = 0; i < 2; i++) {
                    for (int k = 0; k < Convolution.TAPS; k++) {
                        sum += kernels[Convolution.TAPS * i + k] * in[i][SHAPE.padded(y + k / 3 - 1, t + k % 3 - 1)];
                    }
                }
                assertThat((double) out[y * SHAPE.columns() + t]).isCloseTo(sum, within(1e-5));
            }
        }
    }

    /** Both gradients are adjoint to the convolution: the inner product of its result with any plane is the same seen from the input and from the kernel. */
    @Test
    void gradientsAreAdjoint() {
        SplittableRandom random = new SplittableRandom(2);
        float[] in = padded(random);
        float[] gradient = padded(random);
        float[] kernel = new float[Convolution.TAPS];
        for (int k = 0; k < kernel.length; k++) {
            kernel[k] = (float) random.nextGaussian();
        }
        float[] out = new float[SHAPE.size()];
        SHAPE.forward(new float[][] {in}, kernel, 0, out);
        float[] back = new float[SHAPE.size()];
        SHAPE.backward(gradient, kernel, 0, back);
        float[] byKernel = new float[Convolution.TAPS];
        SHAPE.kernelGradient(in, gradient, byKernel, 0);
        double product = 0;
        double byInput = 0;
        for (int y = 0; y < SHAPE.rows(); y++) {
            for (int t = 0; t < SHAPE.columns(); t++) {
                product += out[y * SHAPE.columns() + t] * gradient[SHAPE.padded(y, t)];
                byInput += back[y * SHAPE.columns() + t] * in[SHAPE.padded(y, t)];
            }
        }
        double seenFromKernel = 0;
        for (int k = 0; k < kernel.length; k++) {
            seenFromKernel += byKernel[k] * kernel[k];
        }
        assertThat(byInput).isCloseTo(product, within(1e-4));
        assertThat(seenFromKernel).isCloseTo(product, within(1e-4));
    }
}
