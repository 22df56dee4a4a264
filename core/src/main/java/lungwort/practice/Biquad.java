package lungwort.practice;

/** Second-order sections after the Audio EQ Cookbook (R. Bristow-Johnson), and resonators, run forwards: a microphone is causal. */
final class Biquad {
    private final double b0;
    private final double b1;
    private final double b2;
    private final double a1;
    private final double a2;

    private Biquad(double b0, double b1, double b2, double a0, double a1, double a2) {
        this.b0 = b0 / a0;
        this.b1 = b1 / a0;
        this.b2 = b2 / a0;
        this.a1 = a1 / a0;
        this.a2 = a2 / a0;
    }

    /** Low pass of second order; the cut-off in Hz is held below 0.45 of the rate. */
    static Biquad lowPass(double hz, double q, int rateHz) {
        double w = omega(hz, rateHz);
        double alpha = Math.sin(w) / (2 * q);
        double c = Math.cos(w);
        return new Biquad((1 - c) / 2, 1 - c, (1 - c) / 2, 1 + alpha, -2 * c, 1 - alpha);
    }

    static Biquad highPass(double hz, double q, int rateHz) {
        double w = omega(hz, rateHz);
        double alpha = Math.sin(w) / (2 * q);
        double c = Math.cos(w);
        return new Biquad((1 + c) / 2, -(1 + c), (1 + c) / 2, 1 + alpha, -2 * c, 1 - alpha);
    }

    static Biquad peak(double hz, double db, double q, int rateHz) {
        double w = omega(hz, rateHz);
        double alpha = Math.sin(w) / (2 * q);
        double a = Math.pow(10, db / 40);
        double c = -2 * Math.cos(w);
        return new Biquad(1 + alpha * a, c, 1 - alpha * a, 1 + alpha / a, c, 1 - alpha / a);
    }

    /** Band pass with 0 dB at its middle. */
    static Biquad bandPass(double hz, double q, int rateHz) {
        double w = omega(hz, rateHz);
        double alpha = Math.sin(w) / (2 * q);
        return new Biquad(alpha, 0, -alpha, 1 + alpha, -2 * Math.cos(w), 1 - alpha);
    }

    /** First-order low pass, 6 dB an octave above the cut-off. */
    static Biquad slope(double hz, int rateHz) {
        double k = Math.tan(omega(hz, rateHz) / 2);
        return new Biquad(k, k, 0, 1 + k, k - 1, 0);
    }

    private static double omega(double hz, int rateHz) {
        return 2 * Math.PI * Math.min(hz, 0.45 * rateHz) / rateHz;
    }

    /** Filters in place, from rest, and returns the same array. */
    double[] apply(double[] x) {
        double z1 = 0;
        double z2 = 0;
        for (int i = 0; i < x.length; i++) {
            double y = b0 * x[i] + z1;
            z1 = b1 * x[i] - a1 * y + z2;
            z2 = b2 * x[i] - a2 * y;
            x[i] = y;
        }
        return x;
    }
}
