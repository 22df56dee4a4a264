package lungwort.sound;

import java.util.Arrays;
import lungwort.signal.ChestViews;
import lungwort.signal.Spectrogram;

/**
 * How unlike the sound around it each moment is: energy in bands of 125 Hz over 8 ms every 2 ms, against the local noise.
 *
 * <p>For noise of known variance the log-likelihood ratio of "louder" against "the same" is {@code r - 1 - ln r} per independent band, with r the ratio of powers; summed over bands. Each
 * band is judged against itself, which whitens the breath noise, so neither its colour nor the device's matters.
 */
final class TransientMap {
    static final int FRAME = 64;
    static final int HOP = 16;

    /** Bands looked at, in bins of 125 Hz: 125 to 1500 Hz. */
    private static final int FIRST_BIN = 1;

    private static final int LAST_BIN = 12;

    /** Neighbouring bins of a Hann window share this much: the sum counts each independent band about once. */
    private static final double INDEPENDENT = 0.6;

    private static final double WIDE_SECONDS = 0.200;
    private static final double NEAR_SECONDS = 0.040;

    /** 100 dB under the loudest bin counts as silence. */
    private static final double SILENCE = 1e-10;

    private final double[] score;
    private final Spectrogram view;

    private TransientMap(double[] score, Spectrogram view) {
        this.score = score;
        this.view = view;
    }

    static TransientMap of(ChestViews views) {
        Spectrogram view = Spectrogram.of(views.crackle(), ChestViews.CRACKLE_RATE_HZ, FRAME, HOP, FRAME);
        double[] score = new double[view.frames()];
        double floor = floor(view);
        for (int k = FIRST_BIN; k <= LAST_BIN && score.length > 0; k++) {
            double[] band = new double[score.length];
            for (int f = 0; f < band.length; f++) {
                band[f] = view.power(f, k) + floor;
            }
            double[] wide = medians(band, (int) (WIDE_SECONDS / view.hopSeconds()));
            double[] near = medians(band, (int) (NEAR_SECONDS / view.hopSeconds()));
            for (int f = 0; f < band.length; f++) {
                // The median of exponentially spread power is ln 2 of its mean.
                double noise = Math.max(wide[f], near[f]) / Math.log(2);
                double ratio = band[f] / noise;
                score[f] += ratio > 1 ? INDEPENDENT * (ratio - 1 - Math.log(ratio)) : 0;
            }
        }
        return new TransientMap(score, view);
    }

    private static double floor(Spectrogram view) {
        double most = 0;
        for (int f = 0; f < view.frames(); f++) {
            most = Math.max(most, Arrays.stream(view.row(f)).max().orElse(0));
        }
        return most > 0 ? most * SILENCE : 1;
    }

    /** Median over {@code half} frames on each side; at the ends over the window's length that lies inside. */
    private static double[] medians(double[] x, int half) {
        int length = Math.min(2 * half + 1, x.length - 1 + x.length % 2);
        SlidingMedian sliding = new SlidingMedian(x, length);
        double[] out = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            int from = Math.max(0, Math.min(x.length - length, i - length / 2));
            out[i] = sliding.startingAt(from);
        }
        return out;
    }

    int frames() {
        return score.length;
    }

    /** Log-likelihood ratio at a frame, at least 0. */
    double score(int frame) {
        return score[frame];
    }

    /** Share of a frame's energy above the bands looked at. */
    double highShare(int frame) {
        double[] row = view.row(frame);
        double all = 0;
        double high = 0;
        for (int k = FIRST_BIN; k < row.length; k++) {
            all += row[k];
            high += k > LAST_BIN ? row[k] : 0;
        }
        return all > 0 ? high / all : 0;
    }

    /** First sample of a frame in the crackle view. */
    int startOf(int frame) {
        return frame * view.hopSamples();
    }
}
