package lungwort.classify;

import java.util.Arrays;
import java.util.stream.IntStream;
import smile.math.BFGS;
import smile.math.DifferentiableMultivariateFunction;

/**
 * Fits {@link LinearSoftmax} by Smile's limited-memory BFGS (Nocedal 1980) on the ridge-penalised cross entropy with one weight vector a class.
 *
 * <p>Smile's own logistic regression holds one class at zero, which with a penalty treats that class unlike the others, and takes no row weights.
 */
final class SoftmaxRegression {
    private static final int CHUNK = 512;
    private static final int MEMORY = 7;
    private static final double TOLERANCE = 1e-4;

    private SoftmaxRegression() {}

    /**
     * How to fit.
     *
     * @param ridge penalty: half of it times the squared weights is added to the summed loss
     * @param iterations most steps
     */
    record Settings(double ridge, int iterations) {}

    static LinearSoftmax fit(float[][] x, int[] y, double[] weight, int classes, Settings s) {
        RankNormal scale = RankNormal.of(x);
        float[][] z = Arrays.stream(x).parallel().map(scale::apply).toArray(float[][]::new);
        int p = z[0].length;
        double[] w = new double[classes * (p + 1)];
        BFGS.minimize(new Loss(z, y, weight, classes, s.ridge), MEMORY, w, TOLERANCE, s.iterations);
        float[] weights = new float[classes * p];
        float[] bias = new float[classes];
        for (int c = 0; c < classes; c++) {
            for (int f = 0; f < p; f++) {
                weights[c * p + f] = (float) w[c * (p + 1) + f];
            }
            bias[c] = (float) w[c * (p + 1) + p];
        }
        return new LinearSoftmax(scale, classes, weights, bias);
    }

    /** Loss and gradient; rows are taken in fixed chunks whose sums are added in order, so the result does not depend on the number of threads. */
    private static final class Loss implements DifferentiableMultivariateFunction {
        private static final long serialVersionUID = 1L;
        private final transient float[][] x;
        private final transient int[] y;
        private final transient double[] weight;
        private final int classes;
        private final double ridge;

        Loss(float[][] x, int[] y, double[] weight, int classes, double ridge) {
            this.x = x;
            this.y = y;
            this.weight = weight;
            this.classes = classes;
            this.ridge = ridge;
        }

        @Override
        public double f(double[] w) {
            return g(w, new double[w.length]);
        }

        @Override
        public double g(double[] w, double[] gradient) {
            int chunks = (x.length + CHUNK - 1) / CHUNK;
            double[][] part = IntStream.range(0, chunks)
                    .parallel()
                    .mapToObj(c -> chunk(w, c))
                    .toArray(double[][]::new);
            Arrays.fill(gradient, 0);
            double loss = 0;
            for (double[] sum : part) {
                for (int i = 0; i < gradient.length; i++) {
                    gradient[i] += sum[i];
                }
                loss += sum[gradient.length];
            }
            int p = x[0].length;
            for (int i = 0; i < w.length; i++) {
                if (i % (p + 1) != p) {
                    loss += 0.5 * ridge * w[i] * w[i];
                    gradient[i] += ridge * w[i];
                }
            }
            return loss;
        }

        /** Gradient of the rows of one chunk, with their loss behind it. */
        private double[] chunk(double[] w, int number) {
            int p = x[0].length;
            double[] sum = new double[w.length + 1];
            double[] score = new double[classes];
            for (int i = number * CHUNK; i < Math.min(x.length, (number + 1) * CHUNK); i++) {
                float[] row = x[i];
                for (int c = 0; c < classes; c++) {
                    score[c] = w[c * (p + 1) + p] + dot(row, w, c * (p + 1));
                }
                Softmax.inPlace(score);
                sum[w.length] -= weight[i] * Math.log(Math.max(1e-300, score[y[i]]));
                for (int c = 0; c < classes; c++) {
                    double error = weight[i] * (score[c] - (y[i] == c ? 1 : 0));
                    int at = c * (p + 1);
                    for (int f = 0; f < p; f++) {
                        sum[at + f] += error * row[f];
                    }
                    sum[at + p] += error;
                }
            }
            return sum;
        }

        private static double dot(float[] row, double[] w, int at) {
            double a = 0;
            double b = 0;
            double c = 0;
            double d = 0;
            int f = 0;
            for (; f + 3 < row.length; f += 4) {
                a += row[f] * w[at + f];
                b += row[f + 1] * w[at + f + 1];
                c += row[f + 2] * w[at + f + 2];
                d += row[f + 3] * w[at + f + 3];
            }
            for (; f < row.length; f++) {
                a += row[f] * w[at + f];
            }
            return a + b + c + d;
        }
    }
}
