package lungwort.classify;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Trains {@link Perceptron}s by mini-batch Adam with dropout.
 *
 * <p>Adam: Kingma and Ba 2015; dropout: Srivastava et al. 2014. Each net has its own seed and is trained by one thread, so the result does not depend on the number of
 * threads.
 */
final class PerceptronTraining {
    private static final int BATCH = 64;

    /**
     * How to train.
     *
     * @param nets number of nets whose probabilities are averaged
     * @param hidden units of the hidden layer
     * @param epochs passes over the rows
     * @param learningRate at the start; it falls to zero along a cosine
     * @param inputDropout share of features hidden in each step
     * @param hiddenDropout share of hidden units hidden in each step
     * @param decay weight decay a step, as a share of the learning rate
     * @param seed of every draw
     */
    record Settings(
            int nets,
            int hidden,
            int epochs,
            double learningRate,
            double inputDropout,
            double hiddenDropout,
            double decay,
            long seed) {}

    private PerceptronTraining() {}

    static Perceptron fit(float[][] x, int[] y, double[] weight, int classes, Settings s) {
        RankNormal scale = RankNormal.of(x);
        float[][] z = Arrays.stream(x).map(scale::apply).toArray(float[][]::new);
        Perceptron.Net[] nets = IntStream.range(0, s.nets)
                .parallel()
                .mapToObj(i -> new Run(z, y, weight, classes, s, s.seed * 7919 + i).train())
                .toArray(Perceptron.Net[]::new);
        return new Perceptron(scale, classes, s.hidden, nets);
    }

    /** The training of one net. */
    private static final class Run {
        private final float[][] x;
        private final int[] y;
        private final double[] weight;
        private final int classes;
        private final int hidden;
        private final Settings s;
        private final SplittableRandom random;
        private final AdamWeights in;
        private final AdamWeights hiddenBias;
        private final AdamWeights out;
        private final AdamWeights outBias;
        private int step;

        Run(float[][] x, int[] y, double[] weight, int classes, Settings s, long seed) {
            this.x = x;
            this.y = y;
            this.weight = weight;
            this.classes = classes;
            this.hidden = s.hidden;
            this.s = s;
            this.random = new SplittableRandom(seed);
            int features = x[0].length;
            this.in = new AdamWeights(features * hidden, Math.sqrt(2.0 / features), random);
            this.hiddenBias = new AdamWeights(hidden, 0, random);
            this.out = new AdamWeights(hidden * classes, Math.sqrt(1.0 / hidden), random);
            this.outBias = new AdamWeights(classes, 0, random);
        }

        Perceptron.Net train() {
            int[] order = IntStream.range(0, x.length).toArray();
            int steps = s.epochs * ((x.length + BATCH - 1) / BATCH);
            for (int epoch = 0; epoch < s.epochs; epoch++) {
                Shuffle.inPlace(order, random);
                for (int at = 0; at < order.length; at += BATCH) {
                    int size = Math.min(BATCH, order.length - at);
                    for (int i = 0; i < size; i++) {
                        learn(order[at + i], 1f / size);
                    }
                    double rate = s.learningRate * 0.5 * (1 + Math.cos(Math.PI * step / steps));
                    step++;
                    in.update(rate, s.decay, step);
                    hiddenBias.update(rate, 0, step);
                    out.update(rate, s.decay, step);
                    outBias.update(rate, 0, step);
                }
            }
            return new Perceptron.Net(in.value, hiddenBias.value, out.value, outBias.value);
        }

        /** Adds one row's gradient. */
        private void learn(int row, float share) {
            float[] z = dropped(x[row]);
            float[] h = hiddenBias.value.clone();
            for (int f = 0; f < z.length; f++) {
                if (z[f] != 0) {
                    addScaled(in.value, f * hidden, z[f], h);
                }
            }
            float keep = (float) (1 / (1 - s.hiddenDropout));
            for (int j = 0; j < hidden; j++) {
                h[j] = h[j] > 0 && random.nextDouble() >= s.hiddenDropout ? h[j] * keep : 0;
            }
            double[] p = classProbabilities(h);
            float[] dh = new float[hidden];
            for (int c = 0; c < classes; c++) {
                float d = (float) ((p[c] - (c == y[row] ? 1 : 0)) * weight[row]) * share;
                outBias.gradient[c] += d;
                for (int j = 0; j < hidden; j++) {
                    out.gradient[j * classes + c] += d * h[j];
                    dh[j] += d * out.value[j * classes + c];
                }
            }
            for (int j = 0; j < hidden; j++) {
                dh[j] = h[j] > 0 ? dh[j] * keep : 0;
                hiddenBias.gradient[j] += dh[j];
            }
            for (int f = 0; f < z.length; f++) {
                if (z[f] != 0) {
                    addScaledTo(in.gradient, f * hidden, z[f], dh);
                }
            }
        }

        private float[] dropped(float[] row) {
            float keep = (float) (1 / (1 - s.inputDropout));
            float[] z = new float[row.length];
            for (int f = 0; f < z.length; f++) {
                z[f] = random.nextDouble() < s.inputDropout ? 0 : row[f] * keep;
            }
            return z;
        }

        private double[] classProbabilities(float[] h) {
            double[] score = new double[classes];
            for (int c = 0; c < classes; c++) {
                float sum = outBias.value[c];
                for (int j = 0; j < hidden; j++) {
                    sum += h[j] * out.value[j * classes + c];
                }
                score[c] = sum;
            }
            return Softmax.inPlace(score);
        }

        private static void addScaled(float[] from, int at, float factor, float[] to) {
            for (int j = 0; j < to.length; j++) {
                to[j] += factor * from[at + j];
            }
        }

        private static void addScaledTo(float[] to, int at, float factor, float[] from) {
            for (int j = 0; j < from.length; j++) {
                to[at + j] += factor * from[j];
            }
        }
    }
}
