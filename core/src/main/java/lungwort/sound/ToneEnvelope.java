package lungwort.sound;

import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/**
 * Amplitude of a tone over time, with the smearing of the spectrogram's window undone: the sound is turned down to 0 Hz along the tone's own track and smoothed over 32 ms.
 *
 * <p>An edge is where the amplitude crosses half of its plateau. A symmetric kernel puts the half-way point of a step where the step is, so the length of a tone that is longer than the
 * kernel comes out unbiased however long the spectrogram's window was.
 */
final class ToneEnvelope {
    private static final double KERNEL_SECONDS = 0.016;
    private static final double DIP_SECONDS = 0.040;
    private static final double HALF = 0.5;

    private ToneEnvelope() {}

    /** Start and end of a tone in seconds. */
    record Span(double startSeconds, double endSeconds) {
        double seconds() {
            return endSeconds - startSeconds;
        }
    }

    /**
     * @param x samples
     * @param rateHz samples a second
     * @param seconds times of the track's points, in order, at least one
     * @param hz frequency at these times
     * @param marginSeconds how far beyond the track's first and last point an edge may lie
     */
    static Span edges(double[] x, int rateHz, double[] seconds, double[] hz, double marginSeconds) {
        int from = (int) Math.max(0, (seconds[0] - marginSeconds) * rateHz);
        int to = (int) Math.min(x.length, (seconds[seconds.length - 1] + marginSeconds) * rateHz);
        double[] amplitude = amplitude(x, from, to, rateHz, seconds, hz);
        int coreFrom = (int) Math.max(0, seconds[0] * rateHz - from);
        int coreTo = (int) Math.min(amplitude.length, seconds[seconds.length - 1] * rateHz - from + 1);
        int peak = coreFrom;
        for (int i = coreFrom; i < coreTo; i++) {
            peak = amplitude[i] > amplitude[peak] ? i : peak;
        }
        double limit = HALF * plateau(amplitude, coreFrom, coreTo, HALF * amplitude[peak]);
        int dip = (int) (DIP_SECONDS * rateHz);
        int start = walk(amplitude, peak, -1, limit, dip);
        int end = walk(amplitude, peak, 1, limit, dip);
        return new Span((double) (from + start) / rateHz, (double) (from + end + 1) / rateHz);
    }

    /** Median of what lies above half of the peak: a ridge that strays into noise does not pull it down. */
    private static double plateau(double[] amplitude, int from, int to, double least) {
        double[] high = new double[Math.max(1, to - from)];
        int count = 0;
        for (int i = from; i < to; i++) {
            if (amplitude[i] >= least) {
                high[count++] = amplitude[i];
            }
        }
        return Statistics.medianInPlace(high, Math.max(1, count));
    }

    /** Goes from the peak outwards to the last sample above the limit before a dip longer than allowed. */
    private static int walk(double[] amplitude, int peak, int step, double limit, int dip) {
        int last = peak;
        for (int i = peak; i >= 0 && i < amplitude.length && Math.abs(i - last) <= dip; i += step) {
            if (amplitude[i] >= limit) {
                last = i;
            }
        }
        return last;
    }

    private static double[] amplitude(double[] x, int from, int to, int rateHz, double[] seconds, double[] hz) {
        double[] re = new double[to - from];
        double[] im = new double[to - from];
        double phase = 0;
        int at = 0;
        for (int i = 0; i < re.length; i++) {
            double t = (double) (from + i) / rateHz;
            while (at < seconds.length - 2 && seconds[at + 1] <= t) {
                at++;
            }
            re[i] = x[from + i] * Math.cos(phase);
            im[i] = x[from + i] * Math.sin(phase);
            phase += 2 * Math.PI * between(seconds, hz, at, t) / rateHz;
        }
        return smoothedMagnitude(re, im, (int) (KERNEL_SECONDS * rateHz));
    }

    /** Two passes of a moving average make a triangle of twice its length. */
    private static double[] smoothedMagnitude(double[] re, double[] im, int samples) {
        double[] smoothRe = Envelope.smoothed(Envelope.smoothed(re, samples), samples);
        double[] smoothIm = Envelope.smoothed(Envelope.smoothed(im, samples), samples);
        for (int i = 0; i < smoothRe.length; i++) {
            smoothRe[i] = Math.hypot(smoothRe[i], smoothIm[i]);
        }
        return smoothRe;
    }

    private static double between(double[] seconds, double[] hz, int at, double t) {
        if (seconds.length == 1 || t <= seconds[0]) {
            return hz[0];
        }
        if (t >= seconds[seconds.length - 1]) {
            return hz[hz.length - 1];
        }
        double share = (t - seconds[at]) / (seconds[at + 1] - seconds[at]);
        return hz[at] + share * (hz[at + 1] - hz[at]);
    }
}
