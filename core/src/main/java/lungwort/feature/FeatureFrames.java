package lungwort.feature;

import lungwort.breath.Breathing;
import lungwort.signal.Butterworth;
import lungwort.signal.Cepstrum;
import lungwort.signal.ChestViews;
import lungwort.signal.MelBands;
import lungwort.signal.Spectrogram;
import lungwort.sound.SoundSearch;

/**
 * Everything the features are computed from, once for a recording: scaled samples, mel levels, ridges, envelopes, and the recording's own background in each.
 *
 * <p>Samples are scaled so that the median level of the recording is 1: a device's gain cancels exactly.
 */
final class FeatureFrames {
    /** Rate the features are computed at, in Hz; all but bursts and crackles, which need the shape of a click, use only what lies below 2 kHz. */
    static final int RATE_HZ = ChestViews.CRACKLE_RATE_HZ;

    /** Added to power densities before taking logs: 60 dB under the recording's median level, spread over 4 kHz. */
    static final double FLOOR_DENSITY = 1e-6 / 4000;

    /** Added to band powers before taking logs. */
    static final double FLOOR_POWER = 1e-6;

    static final int MEL_BANDS = 40;
    static final int COEFFICIENTS = 16;
    private static final int HOP = 128;
    private static final int SHORT_FRAME = 512;
    private static final int LONG_FRAME = 1024;
    private static final int MIN_SAMPLES = 2400;

    final double seconds;

    /** Band-passed from 150 Hz to 1950 Hz, median level 1. */
    final double[] wave;

    /** {@code mel[frame][band]} in dB. */
    final double[][] mel;

    /** {@code cepstrum[coefficient][frame]}. */
    final double[][] cepstrum;

    final RidgeFrames ridges;
    final EnvelopeFrames envelopes;
    final Background background;
    final MeasuredFeatures measured;

    /**
     * @param search of the recording; its crackle view is at {@link #RATE_HZ} and holds nothing below about 80 Hz
     * @param breathing of the recording
     */
    FeatureFrames(SoundSearch search, Breathing breathing) {
        double[] samples = search.views().crackle();
        measured = new MeasuredFeatures(search, breathing);
        seconds = (double) samples.length / RATE_HZ;
        double[] x = scaled(padded(samples));
        double[] framed = withMargins(x);
        Spectrogram shortView = Spectrogram.of(margin(framed, SHORT_FRAME), RATE_HZ, SHORT_FRAME, HOP, SHORT_FRAME);
        Spectrogram longView = Spectrogram.of(framed, RATE_HZ, LONG_FRAME, HOP, LONG_FRAME);
        mel = melLevels(shortView);
        cepstrum = cepstrum(mel);
        ridges = new RidgeFrames(longView);
        envelopes = new EnvelopeFrames(x, RATE_HZ);
        wave = Butterworth.bandPass(2, 150, 1950, RATE_HZ).filtFilt(x);
        background = new Background(this);
    }

    /** Frames of a time span, at least 4: {first, one past the last}. */
    int[] frames(double startSeconds, double endSeconds) {
        return span(startSeconds, endSeconds, (double) RATE_HZ / HOP, mel.length, 4);
    }

    /** Envelope steps of a time span, at least 60. */
    int[] steps(double startSeconds, double endSeconds) {
        return span(startSeconds, endSeconds, EnvelopeFrames.RATE_HZ, envelopes.steps, 60);
    }

    private static int[] span(double startSeconds, double endSeconds, double rate, int n, int least) {
        int from = (int) Math.max(0, Math.min(n - least, Math.round(startSeconds * rate)));
        int to = (int) Math.min(n, Math.max(from + least, Math.round(endSeconds * rate)));
        return new int[] {from, to};
    }

    /** A copy, lengthened by silence to the least that can be measured. */
    static double[] padded(double[] samples) {
        return java.util.Arrays.copyOf(samples, Math.max(MIN_SAMPLES, samples.length));
    }

    /** Divides by the median level; silence stays silence. */
    private static double[] scaled(double[] x) {
        double gain = gain(x);
        for (int i = 0; i < x.length; i++) {
            x[i] *= gain;
        }
        return x;
    }

    /** What makes the median of the root mean squares of 64 ms frames 1; 0 for silence. */
    static double gain(double[] x) {
        double[] level = new double[x.length / SHORT_FRAME];
        for (int f = 0; f < level.length; f++) {
            double sum = 0;
            for (int i = f * SHORT_FRAME; i < (f + 1) * SHORT_FRAME; i++) {
                sum += x[i] * x[i];
            }
            level[f] = Math.sqrt(sum / SHORT_FRAME);
        }
        double median = new Spread(level, 0, level.length).percentile(50);
        return median > 1e-7 ? 1 / median : 0;
    }

    private static double[] withMargins(double[] x) {
        double[] y = new double[x.length + LONG_FRAME];
        System.arraycopy(x, 0, y, LONG_FRAME / 2, x.length);
        return y;
    }

    /** Cuts margins made for the long frame down to those for a shorter one. */
    private static double[] margin(double[] framed, int frame) {
        int cut = (LONG_FRAME - frame) / 2;
        return java.util.Arrays.copyOfRange(framed, cut, framed.length - cut);
    }

    private static double[][] melLevels(Spectrogram view) {
        MelBands bands = MelBands.of(MEL_BANDS, 60, 1980, view.bins(), view.binHz());
        double[][] mel = new double[view.frames()][MEL_BANDS];
        for (int f = 0; f < mel.length; f++) {
            bands.apply(view.row(f), mel[f]);
            for (int b = 0; b < MEL_BANDS; b++) {
                mel[f][b] = 10 * Math.log10(mel[f][b] + FLOOR_DENSITY);
            }
        }
        return mel;
    }

    private static double[][] cepstrum(double[][] mel) {
        Cepstrum transform = new Cepstrum(MEL_BANDS, COEFFICIENTS);
        double[][] c = new double[COEFFICIENTS][mel.length];
        double[] one = new double[COEFFICIENTS];
        for (int f = 0; f < mel.length; f++) {
            transform.apply(mel[f], one);
            for (int k = 0; k < COEFFICIENTS; k++) {
                c[k][f] = one[k];
            }
        }
        return c;
    }

    /** What the recording is like most of the time: the measure each segment is held against. */
    static final class Background {
        final double[] mel = new double[MEL_BANDS];
        final double[] ridgeMedian = new double[RidgeFrames.MEASURES.length];
        final double[] ridgeP95 = new double[RidgeFrames.MEASURES.length];
        final double[] riseP95 = new double[Bands.ENVELOPE_HZ.length];
        final double[] riseP99 = new double[Bands.ENVELOPE_HZ.length];
        final double[] levelMedian = new double[Bands.ENVELOPE_HZ.length];
        final double[] cepstrum = new double[COEFFICIENTS];

        Background(FeatureFrames o) {
            int frames = o.mel.length;
            double[] column = new double[frames];
            for (int b = 0; b < MEL_BANDS; b++) {
                for (int f = 0; f < frames; f++) {
                    column[f] = o.mel[f][b];
                }
                mel[b] = new Spread(column, 0, frames).percentile(50);
            }
            for (int m = 0; m < ridgeMedian.length; m++) {
                Spread s = new Spread(o.ridges.measure[m], 0, o.ridges.frames);
                ridgeMedian[m] = s.percentile(50);
                ridgeP95[m] = s.percentile(95);
            }
            for (int k = 0; k < COEFFICIENTS; k++) {
                cepstrum[k] = new Spread(o.cepstrum[k], 0, frames).percentile(50);
            }
            for (int b = 0; b < levelMedian.length; b++) {
                Spread s = new Spread(o.envelopes.rise[b], 0, o.envelopes.steps);
                riseP95[b] = s.percentile(95);
                riseP99[b] = s.percentile(99);
                levelMedian[b] = new Spread(o.envelopes.level[b], 0, o.envelopes.steps).percentile(50);
            }
        }
    }
}
