package lungwort.heart;

import java.util.Arrays;
import lungwort.audio.Recording;
import lungwort.signal.Butterworth;
import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/**
 * Lowers heart sounds where they mask: at the beats found, the band below {@value #EDGE_HZ} Hz is pressed down to what it is between the beats. Above that edge, and
 * between beats, nothing changes.
 */
public final class HeartLowering {
    /** Upper edge of what is lowered, in Hz: most of the heart is below; wheezes and crackles lie above, a rhonchus or a coarse crackle may reach below. */
    public static final double EDGE_HZ = 130;

    private static final int ORDER = 6;

    /** Around each beat: first and second heart sound. */
    private static final double BEFORE_SECONDS = 0.12;

    private static final double AFTER_SHARE = 0.5;
    private static final double SMOOTH_SECONDS = 0.02;

    private HeartLowering() {}

    /** The recording with its heart sounds lowered; the same where there are none. */
    public static Recording lower(Recording recording) {
        return lower(recording, HeartFinder.find(recording));
    }

    /** As {@link #lower(Recording)}, at beats already found. */
    public static Recording lower(Recording recording, HeartBeats heart) {
        HeartBeats.Rate rate = heart.rate();
        if (rate == null || heart.beats().isEmpty()) {
            return recording;
        }
        double[] x = recording.samples();
        int rateHz = recording.sampleRateHz();
        double[] low = Butterworth.lowPass(ORDER, EDGE_HZ, rateHz).filtFilt(x);
        double[] level = Envelope.rms(low, (int) Math.max(1, SMOOTH_SECONDS * rateHz));
        boolean[] near = near(heart, rate, x.length, rateHz);
        double usual = usual(level, near);
        double[] gain = new double[x.length];
        Arrays.setAll(gain, i -> near[i] ? Math.min(1, usual / Math.max(level[i], 1e-12)) : 1);
        double[] smooth = Envelope.smoothed(gain, (int) Math.max(1, SMOOTH_SECONDS * rateHz));
        for (int i = 0; i < x.length; i++) {
            x[i] -= (1 - smooth[i]) * low[i];
        }
        return recording.with(x, rateHz);
    }

    private static boolean[] near(HeartBeats heart, HeartBeats.Rate rate, int length, int rateHz) {
        boolean[] near = new boolean[length];
        for (HeartBeats.Beat beat : heart.beats()) {
            int from = (int) Math.max(0, (beat.seconds() - BEFORE_SECONDS) * rateHz);
            int to = (int) Math.min(length, (beat.seconds() + AFTER_SHARE * 60 / rate.perMinute()) * rateHz);
            Arrays.fill(near, Math.min(from, to), to, true);
        }
        return near;
    }

    /** Median level between the beats, or of all where nothing lies between. */
    private static double usual(double[] level, boolean[] near) {
        double[] between = new double[level.length];
        int n = 0;
        for (int i = 0; i < level.length; i++) {
            if (!near[i]) {
                between[n++] = level[i];
            }
        }
        return n < level.length / 10 ? Statistics.median(level) : Statistics.medianInPlace(between, n);
    }
}
