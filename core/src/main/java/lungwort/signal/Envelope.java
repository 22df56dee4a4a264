package lungwort.signal;

/** Slow outlines of fast signals; each returns a new array of the same length. */
public final class Envelope {
    private Envelope() {}

    /** Magnitude of the analytic signal ({@link Fft#analytic}): the amplitude of a narrow-band signal at each sample. */
    public static double[] hilbert(double[] x) {
        if (x.length == 0) {
            return new double[0];
        }
        double[] z = Fft.analytic(x);
        double[] y = new double[x.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = Math.hypot(z[2 * i], z[2 * i + 1]);
        }
        return y;
    }

    /**
     * Root mean square over a window centred on each sample; at the ends over the part of it that lies inside.
     *
     * @param windowSamples at least 1; an even one is made odd by one more
     */
    public static double[] rms(double[] x, int windowSamples) {
        double[] y = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            y[i] = x[i] * x[i];
        }
        y = smoothed(y, windowSamples);
        for (int i = 0; i < y.length; i++) {
            y[i] = Math.sqrt(Math.max(0, y[i]));
        }
        return y;
    }

    /**
     * Mean over a window centred on each sample; at the ends over the part of it that lies inside.
     *
     * @param windowSamples at least 1; an even one is made odd by one more
     */
    public static double[] smoothed(double[] x, int windowSamples) {
        if (windowSamples < 1) {
            throw new IllegalArgumentException("a window needs 1 sample or more, not " + windowSamples);
        }
        int half = windowSamples / 2;
        // Prefix sums instead of a running sum: no error builds up along the recording.
        double[] sums = new double[x.length + 1];
        for (int i = 0; i < x.length; i++) {
            sums[i + 1] = sums[i] + x[i];
        }
        double[] y = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            int from = Math.max(0, i - half);
            int to = Math.min(x.length, i + half + 1);
            y[i] = (sums[to] - sums[from]) / (to - from);
        }
        return y;
    }
}
