package lungwort.feature;

import lungwort.signal.Butterworth;

/**
 * Band envelopes a thousand times a second and how far each stands over its own surroundings: the trace of crackles.
 *
 * <p>Level = 10 log10 of squared band-passed samples averaged over 3 to 5 ms. Transient level = level minus its running median over 82 ms (smoothed).
 */
final class EnvelopeFrames {
    /** Values a second. */
    static final int RATE_HZ = 1000;

    private static final int BACKGROUND_STEPS = 41;

    /** {@code level[band][step]} in dB. */
    final double[][] level;

    /** {@code rise[band][step]}: level over its own background, in dB. */
    final double[][] rise;

    final int steps;

    EnvelopeFrames(double[] x, int rateHz) {
        int bands = Bands.ENVELOPE_HZ.length;
        int hop = rateHz / RATE_HZ;
        steps = (x.length + hop - 1) / hop;
        level = new double[bands][];
        rise = new double[bands][];
        for (int b = 0; b < bands; b++) {
            double[] edges = Bands.ENVELOPE_HZ[b];
            double[] y = Butterworth.bandPass(2, edges[0], edges[1], rateHz).filtFilt(x);
            double windowSeconds = edges[0] >= 700 ? 0.003 : 0.005;
            level[b] = levels(y, (int) (windowSeconds * rateHz), hop);
            rise[b] = overBackground(level[b]);
        }
    }

    private double[] levels(double[] y, int window, int hop) {
        double[] power = new double[y.length];
        for (int i = 0; i < y.length; i++) {
            power[i] = y[i] * y[i];
        }
        double[] smooth = Sliding.mean(power, window);
        double[] out = new double[steps];
        for (int i = 0; i < steps; i++) {
            out[i] = 10 * Math.log10(Math.max(0, smooth[i * hop]) + FeatureFrames.FLOOR_POWER);
        }
        return out;
    }

    private static double[] overBackground(double[] level) {
        double[] every2nd = new double[(level.length + 1) / 2];
        for (int i = 0; i < every2nd.length; i++) {
            every2nd[i] = level[2 * i];
        }
        double[] base = Sliding.mean(Sliding.median(every2nd, BACKGROUND_STEPS), 5);
        double[] rise = new double[level.length];
        for (int i = 0; i < rise.length; i++) {
            rise[i] = level[i] - base[i / 2];
        }
        return rise;
    }
}
