package lungwort.signal;

import java.util.Arrays;

/** How alike a signal is to itself some samples later. */
public final class Autocorrelation {
    private Autocorrelation() {}

    /**
     * {@code r[k] = sum_i (x[i] - m)(x[i + k] - m) / sum_i (x[i] - m)^2} with m the mean (the biased estimate of Box and Jenkins), by FFT.
     *
     * @param x samples
     * @param maxLag last lag, in [0, x.length - 1]
     * @return shape {@code [maxLag + 1]}, in [-1, 1], r[0] = 1; all zero for a constant signal
     */
    public static double[] normalised(double[] x, int maxLag) {
        if (maxLag < 0 || maxLag >= Math.max(1, x.length)) {
            throw new IllegalArgumentException("lag %d of %d samples".formatted(maxLag, x.length));
        }
        if (x.length == 0) {
            return new double[1];
        }
        double[] sums = sums(x, maxLag);
        double energy = sums[0];
        if (!(energy > 0)) {
            return new double[maxLag + 1];
        }
        for (int k = 0; k < sums.length; k++) {
            sums[k] /= energy;
        }
        return sums;
    }

    /** As {@link #normalised} with each lag scaled by {@code n / (n - k)}, so that a periodic signal keeps its height at long lags; noisy where few samples are left. */
    public static double[] unbiased(double[] x, int maxLag) {
        double[] r = normalised(x, maxLag);
        for (int k = 1; k < r.length; k++) {
            r[k] *= (double) x.length / (x.length - k);
        }
        return r;
    }

    /**
     * The lag of the highest local peak, to a fraction of a sample by a parabola through three points.
     *
     * @param r autocorrelation
     * @param minLag first lag looked at, at least 1
     * @param maxLag last lag looked at, at most {@code r.length - 2}
     * @return the lag in samples, or NaN if no lag in the range is higher than both its neighbours
     */
    public static double peakLag(double[] r, int minLag, int maxLag) {
        int best = -1;
        for (int k = Math.max(1, minLag); k <= Math.min(maxLag, r.length - 2); k++) {
            if (r[k] > r[k - 1] && r[k] >= r[k + 1] && (best < 0 || r[k] > r[best])) {
                best = k;
            }
        }
        if (best < 0) {
            return Double.NaN;
        }
        double curve = r[best - 1] - 2 * r[best] + r[best + 1];
        return best + (r[best - 1] - r[best + 1]) / (2 * curve);
    }

    private static double[] sums(double[] x, int maxLag) {
        double mean = Statistics.mean(x);
        Fft fft = Fft.of(Fft.nextPowerOfTwo(x.length + maxLag + 1));
        double[] z = new double[2 * fft.size()];
        boolean constant = true;
        for (int i = 0; i < x.length; i++) {
            z[2 * i] = x[i] - mean;
            constant &= x[i] == x[0];
        }
        if (constant) {
            return new double[maxLag + 1];
        }
        fft.forward(z);
        for (int k = 0; k < fft.size(); k++) {
            z[2 * k] = z[2 * k] * z[2 * k] + z[2 * k + 1] * z[2 * k + 1];
            z[2 * k + 1] = 0;
        }
        fft.inverse(z);
        double[] r = new double[maxLag + 1];
        Arrays.setAll(r, k -> z[2 * k]);
        return r;
    }
}
