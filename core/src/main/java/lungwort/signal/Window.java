package lungwort.signal;

/** Hann windows: {@code w[n] = 0.5 - 0.5 cos(2 pi n / N)} (Blackman and Tukey 1958; as SciPy's {@code get_window("hann", n)}). */
public final class Window {
    private Window() {}

    /**
     * For spectra: one period of the cosine is {@code length} samples.
     *
     * @param length in samples, at least 1
     * @return weights in [0, 1], shape {@code [length]}
     */
    public static double[] hannPeriodic(int length) {
        return hann(length, length);
    }

    /**
     * For designing and smoothing: first and last weights are both 0.
     *
     * @param length in samples, at least 1; a window of one sample is 1
     * @return weights in [0, 1], shape {@code [length]}
     */
    public static double[] hannSymmetric(int length) {
        return hann(length, length - 1);
    }

    private static double[] hann(int length, int period) {
        if (length < 1) {
            throw new IllegalArgumentException("a window needs 1 sample or more, not " + length);
        }
        double[] weights = new double[length];
        if (length == 1) {
            weights[0] = 1;
            return weights;
        }
        for (int i = 0; i < length; i++) {
            weights[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / period);
        }
        return weights;
    }
}
