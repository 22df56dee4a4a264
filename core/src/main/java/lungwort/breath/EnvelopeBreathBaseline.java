package lungwort.breath;

import java.util.ArrayList;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.breath.Breathing.Rate;
import lungwort.signal.Autocorrelation;
import lungwort.signal.Butterworth;
import lungwort.signal.Envelope;

/**
 * The simple, old way, kept to compare with: smoothed envelope of the band from 150 to 800 Hz, period from the highest peak of its autocorrelation, breaths from its
 * minima a period apart; no phases (common practice).
 */
public final class EnvelopeBreathBaseline {
    private static final double CURVE_RATE_HZ = 20;
    private static final double SMOOTH_SECONDS = 0.4;

    private EnvelopeBreathBaseline() {}

    /** Breaths without phases; {@link Breathing#NONE} where no period shows. */
    public static Breathing track(Recording recording) {
        double[] curve = curve(recording);
        int shortest = (int) Math.ceil(60 / BreathTracker.MAX_RATE * CURVE_RATE_HZ);
        int longest = Math.min((int) (60 / BreathTracker.MIN_RATE * CURVE_RATE_HZ), curve.length / 2);
        if (longest <= shortest + 1) {
            return Breathing.NONE;
        }
        double[] r = Autocorrelation.unbiased(curve, longest + 1);
        double lag = Autocorrelation.peakLag(r, shortest, longest);
        if (Double.isNaN(lag)) {
            return Breathing.NONE;
        }
        double height = Math.max(0, Math.min(1, r[(int) Math.round(lag)]));
        double rate = 60 * CURVE_RATE_HZ / lag;
        return new Breathing(breaths(curve, lag, height), new Rate(rate, rate, rate, height));
    }

    private static double[] curve(Recording recording) {
        int rateHz = recording.sampleRateHz();
        double high = Math.min(800, 0.45 * rateHz);
        double[] band = Butterworth.bandPass(4, 150, high, rateHz).filtFilt(recording.samples());
        double[] envelope = Envelope.rms(band, (int) Math.max(1, Math.round(SMOOTH_SECONDS * rateHz)));
        double[] curve = new double[(int) (recording.durationSeconds() * CURVE_RATE_HZ)];
        for (int i = 0; i < curve.length; i++) {
            curve[i] = Math.log10(envelope[(int) (i / CURVE_RATE_HZ * rateHz)] + 1e-9);
        }
        return curve;
    }

    /** Cuts at the lowest point within each period, starting from the lowest of the first. */
    private static List<Breath> breaths(double[] curve, double lag, double confidence) {
        List<Integer> cuts = new ArrayList<>();
        int at = lowest(curve, 0, (int) lag);
        while (at >= 0) {
            cuts.add(at);
            at = lowest(curve, at + (int) (0.6 * lag), at + (int) (1.4 * lag));
        }
        List<Breath> breaths = new ArrayList<>();
        for (int i = 0; i + 1 < cuts.size(); i++) {
            breaths.add(
                    new Breath(cuts.get(i) / CURVE_RATE_HZ, cuts.get(i + 1) / CURVE_RATE_HZ, List.of(), confidence));
        }
        return breaths;
    }

    private static int lowest(double[] curve, int from, int to) {
        if (to > curve.length) {
            return -1;
        }
        int best = from;
        for (int i = from; i < to; i++) {
            best = curve[i] < curve[best] ? i : best;
        }
        return best;
    }
}
