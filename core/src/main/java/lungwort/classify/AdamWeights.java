package lungwort.classify;

import java.util.SplittableRandom;

/** Weights with their gradient and Adam's two moments (Kingma and Ba 2015), decayed apart from the gradient (Loshchilov and Hutter 2019). */
final class AdamWeights {
    private static final float BETA1 = 0.9f;
    private static final float BETA2 = 0.999f;
    private static final float EPSILON = 1e-8f;

    final float[] value;
    final float[] gradient;
    private final float[] first;
    private final float[] second;

    /**
     * @param n number of weights
     * @param deviation of the normal distribution that they are drawn from; 0 starts all at zero and draws nothing
     */
    AdamWeights(int n, double deviation, SplittableRandom random) {
        value = new float[n];
        gradient = new float[n];
        first = new float[n];
        second = new float[n];
        for (int i = 0; i < n && deviation > 0; i++) {
            value[i] = (float) (deviation * random.nextGaussian());
        }
    }

    /**
     * Steps against the gradient, and clears it.
     *
     * @param rate learning rate
     * @param decay share of the learning rate by which each weight shrinks
     * @param step number of this step, from 1
     */
    void update(double rate, double decay, int step) {
        float a = (float) (rate * Math.sqrt(1 - Math.pow(BETA2, step)) / (1 - Math.pow(BETA1, step)));
        float shrink = (float) (1 - rate * decay);
        for (int i = 0; i < value.length; i++) {
            float g = gradient[i];
            first[i] = BETA1 * first[i] + (1 - BETA1) * g;
            second[i] = BETA2 * second[i] + (1 - BETA2) * g * g;
            value[i] = shrink * value[i] - a * first[i] / ((float) Math.sqrt(second[i]) + EPSILON);
            gradient[i] = 0;
        }
    }
}
