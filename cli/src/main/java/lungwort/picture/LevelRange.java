package lungwort.picture;

import java.util.Arrays;
import lungwort.signal.Spectrogram;

/** Which levels the picture spans: from the quiet of this recording to its loudest, so that gain does not matter. */
final class LevelRange {
    private static final double SMALLEST = 1e-14;

    /** No picture spans less than this, so that silence does not look like sound. */
    private static final double MIN_SPAN_DB = 45;

    private LevelRange() {}

    static double db(double power) {
        return 10 * Math.log10(Math.max(power, SMALLEST));
    }

    /** Lowest and highest level shown, in dB: 10th percentile and the loudest 0.1 % below {@code topHz}. */
    static double[] of(Spectrogram spectrogram, double topHz) {
        int bins = Math.min(spectrogram.bins(), spectrogram.binOf(topHz));
        double[] all = new double[Math.max(1, spectrogram.frames() * bins)];
        Arrays.fill(all, SMALLEST);
        for (int frame = 0; frame < spectrogram.frames(); frame++) {
            for (int bin = 0; bin < bins; bin++) {
                all[frame * bins + bin] = spectrogram.power(frame, bin);
            }
        }
        Arrays.sort(all);
        double low = db(all[(int) (0.1 * (all.length - 1))]);
        double high = db(all[(int) (0.999 * (all.length - 1))]);
        return new double[] {Math.min(low, high - MIN_SPAN_DB), high};
    }
}
