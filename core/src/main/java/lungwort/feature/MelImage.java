package lungwort.feature;

import java.util.Arrays;
import lungwort.signal.MelBands;
import lungwort.signal.Spectrogram;

/**
 * A recording's mel levels over time, as a net looks at them: shape {@code [ROWS][frames]}, at least {@link #LEAST_FRAMES} frames, frame f about {@code f * HOP_SECONDS} seconds. The first
 * {@link #BANDS} rows, low bands first, are levels in Hann windows of 64 ms, in which tones stand out; the others, of the same bands, the highest level in five windows of 16 ms about the same moment, in which short bursts do.
 * A value is the level in dB, less the median of its row over the recording, divided by {@value #DB_PER_UNIT} dB, so a
 * number without unit; held in [{@value #LOWEST}, {@value #HIGHEST}] and rounded to sixteenths, so that a byte holds it.
 *
 * <p>The median is taken off because a device multiplies each band by a factor of its own: its colour and gain add the same number of decibels to every frame of a band, and cancel, but for what lies near the floor that is added before the logarithm. A tone that fills more than half of the recording is taken off, too.
 */
public final class MelImage {
    /** Number of bands, from 60 to 1950 Hz. */
    public static final int BANDS = 32;

    /** Each band in long windows, then each in short ones. */
    public static final int ROWS = 2 * BANDS;

    /** From one frame to the next, in seconds. */
    public static final double HOP_SECONDS = 0.02;

    /** Shorter recordings are repeated until they have so many frames. */
    public static final int LEAST_FRAMES = 16;

    /** Lowest value. */
    public static final float LOWEST = -4;

    /** Highest value: the largest that a byte of sixteenths holds. */
    public static final float HIGHEST = 127 / 16f;

    private static final double DB_PER_UNIT = 12;
    private static final float STEPS = 16;
    private static final double LOW_HZ = 60;
    private static final double HIGH_HZ = 1950;
    private static final int RATE_HZ = FeatureFrames.RATE_HZ;
    private static final int FRAME = 512;
    private static final int HOP = (int) Math.round(HOP_SECONDS * RATE_HZ);
    private static final int SHORT_FRAME = 128;
    private static final int SHORT_FFT = 256;
    private static final int SHORT_EACH = 5;
    private static final int SHORT_HOP = HOP / SHORT_EACH;

    /** Frames that are looked at in short windows at a time, so that a long recording needs little room. */
    private static final int AT_A_TIME = 500;

    private MelImage() {}

    /**
     * @param samples of any length, at {@link FeatureFrames#RATE_HZ}; only read
     * @return all finite; zeros for silence
     */
    static float[][] of(double[] samples) {
        double gain = FeatureFrames.gain(FeatureFrames.padded(samples));
        double[] framed = new double[samples.length + FRAME];
        for (int i = 0; i < samples.length; i++) {
            framed[FRAME / 2 + i] = gain * samples[i];
        }
        int frames = 1 + samples.length / HOP;
        double[][] levels = new double[ROWS][frames];
        longLevels(framed, levels);
        shortLevels(framed, levels);
        float[][] image = new float[ROWS][Math.max(LEAST_FRAMES, frames)];
        for (int b = 0; b < ROWS; b++) {
            double median = new Spread(levels[b], 0, frames).percentile(50);
            for (int f = 0; f < image[b].length; f++) {
                image[b][f] = rounded((levels[b][f % frames] - median) / DB_PER_UNIT);
            }
        }
        return image;
    }

    private static void longLevels(double[] framed, double[][] levels) {
        Spectrogram view = Spectrogram.of(framed, RATE_HZ, FRAME, HOP, FRAME);
        MelBands bands = MelBands.of(BANDS, LOW_HZ, HIGH_HZ, view.bins(), view.binHz());
        double[] power = new double[BANDS];
        for (int f = 0; f < levels[0].length; f++) {
            bands.apply(view.row(f), power);
            for (int b = 0; b < BANDS; b++) {
                levels[b][f] = decibels(power[b]);
            }
        }
    }

    private static void shortLevels(double[] framed, double[][] levels) {
        int frames = levels[0].length;
        int margin = (FRAME - SHORT_FRAME - (SHORT_EACH - 1) * SHORT_HOP) / 2;
        double[] power = new double[BANDS];
        for (int from = 0; from < frames; from += AT_A_TIME) {
            int to = Math.min(frames, from + AT_A_TIME);
            int end = margin + (to - 1) * HOP + (SHORT_EACH - 1) * SHORT_HOP + SHORT_FRAME;
            double[] part = Arrays.copyOfRange(framed, margin + from * HOP, end);
            Spectrogram view = Spectrogram.of(part, RATE_HZ, SHORT_FRAME, SHORT_HOP, SHORT_FFT);
            MelBands bands = MelBands.of(BANDS, LOW_HZ, HIGH_HZ, view.bins(), view.binHz());
            for (int f = from; f < to; f++) {
                double[] most = new double[BANDS];
                for (int k = 0; k < SHORT_EACH; k++) {
                    bands.apply(view.row((f - from) * SHORT_EACH + k), power);
                    for (int b = 0; b < BANDS; b++) {
                        most[b] = Math.max(most[b], power[b]);
                    }
                }
                for (int b = 0; b < BANDS; b++) {
                    levels[BANDS + b][f] = decibels(most[b]);
                }
            }
        }
    }

    private static double decibels(double power) {
        return 10 * Math.log10(power + FeatureFrames.FLOOR_DENSITY);
    }

    private static float rounded(double value) {
        return Math.round(Math.max(LOWEST, Math.min(HIGHEST, value)) * STEPS) / STEPS;
    }

    /**
     * An image as bytes of sixteenths; {@link #of(byte[][])} gives it back exactly.
     *
     * @param image as {@link FeatureExtractor#image} gives it
     */
    public static byte[][] bytes(float[][] image) {
        byte[][] bytes = new byte[image.length][];
        for (int b = 0; b < bytes.length; b++) {
            bytes[b] = new byte[image[b].length];
            for (int f = 0; f < bytes[b].length; f++) {
                bytes[b][f] = (byte) Math.round(image[b][f] * STEPS);
            }
        }
        return bytes;
    }

    /** The image that {@link #bytes} made bytes of. */
    public static float[][] of(byte[][] bytes) {
        float[][] image = new float[bytes.length][];
        for (int b = 0; b < image.length; b++) {
            image[b] = new float[bytes[b].length];
            for (int f = 0; f < image[b].length; f++) {
                image[b][f] = bytes[b][f] / STEPS;
            }
        }
        return image;
    }

    /**
     * Marks a stretch of time at an image's frames: at least the frame nearest to its start.
     *
     * @param marked shape {@code [frames]}; true is written where the stretch is, nothing elsewhere
     * @param startSeconds its start
     * @param endSeconds its end
     */
    public static void mark(boolean[] marked, double startSeconds, double endSeconds) {
        int from = (int) Math.max(0, Math.min(marked.length, Math.round(startSeconds / HOP_SECONDS)));
        int to = (int) Math.min(marked.length, Math.max(from + 1, Math.round(endSeconds / HOP_SECONDS)));
        Arrays.fill(marked, from, to, true);
    }
}
