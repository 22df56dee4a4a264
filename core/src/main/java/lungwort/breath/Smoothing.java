package lungwort.breath;

import java.util.Arrays;
import lungwort.signal.Statistics;

/** Smoothing of curves of a few frames a second; the ends are continued with the last value. */
final class Smoothing {
    private Smoothing() {}

    /** Weighted mean with Gaussian weights, cut off at four standard deviations. */
    static double[] gaussian(double[] x, double sigmaFrames) {
        int reach = (int) Math.ceil(4 * sigmaFrames);
        double[] weights = new double[2 * reach + 1];
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            weights[i] = Math.exp(-0.5 * Math.pow((i - reach) / sigmaFrames, 2));
            sum += weights[i];
        }
        double[] y = new double[x.length];
        for (int t = 0; t < x.length; t++) {
            for (int i = 0; i < weights.length; i++) {
                y[t] += weights[i] * x[Math.max(0, Math.min(x.length - 1, t + i - reach))];
            }
            y[t] /= sum;
        }
        return y;
    }

    /** Running median over an odd number of frames. */
    static double[] median(double[] x, int frames) {
        double[] y = new double[x.length];
        double[] part = new double[frames];
        for (int t = 0; t < x.length; t++) {
            for (int i = 0; i < frames; i++) {
                part[i] = x[Math.max(0, Math.min(x.length - 1, t + i - frames / 2))];
            }
            y[t] = Statistics.medianInPlace(part, frames);
        }
        return y;
    }

    /** Every {@code step}-th value. */
    static double[] every(double[] x, int step) {
        double[] y = new double[(x.length + step - 1) / step];
        Arrays.setAll(y, i -> x[i * step]);
        return y;
    }
}
