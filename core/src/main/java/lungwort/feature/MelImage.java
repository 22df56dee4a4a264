package lungwort.feature;

import java.util.Arrays;
import lungwort.signal.MelBands;
import lungwort.signal.Spectrogram;

/**
 * A recording's mel levels over time, as a net looks at them: shape {@code [BANDS][frames]}, low bands first, at least {@link #LEAST_FRAMES} frames, frame f about
 * {@code f * HOP_SECONDS} seconds. A value is the level of a band in dB (Hann windows of 64 ms), less the median of that band over the recording, divided by {@value #DB_PER_UNIT} dB, so a
 * number without unit; held in [{@value #LOWEST}, {@value #HIGHEST}] and rounded to sixteenths, so that a byte holds it.
 *
 * <p>The median is taken off because a device multiplies each band by a factor of its own: its colour and gain add the same number of decibels to every frame of a band, and cancel, but for what lies near the floor that is added before the logarithm. A tone that fills more than half of the recording is taken off, too.
 */
public final class MelImage {
    /** Number of bands, from 60 to 1950 Hz. */
    public static final int BANDS = 32;

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
        Spectrogram view = Spectrogram.of(framed, RATE_HZ, FRAME, HOP, FRAME);
        double[][] levels = levels(view);
        int frames = view.frames();
        float[][] image = new float[BANDS][Math.max(LEAST_FRAMES, frames)];
        for (int b = 0; b < BANDS; b++) {
            double median = new Spread(levels[b], 0, frames).percentile(50);
            for (int f = 0; f < image[b].length; f++) {
                image[b][f] = rounded((levels[b][f % frames] - median) / DB_PER_UNIT);
            }
        }
        return image;
    }

    private static double[][] levels(Spectrogram view) {
        MelBands bands = MelBands.of(BANDS, LOW_HZ, HIGH_HZ, view.bins(), view.binHz());
        double[][] levels = new double[BANDS][view.frames()];
        double[] power = new double[BANDS];
        for (int f = 0; f < view.frames(); f++) {
            bands.apply(view.row(f), power);
            for (int b = 0; b < BANDS; b++) {
                levels[b][f] = 10 * Math.log10(power[b] + FeatureFrames.FLOOR_DENSITY);
            }
        }
        return levels;
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
        int from = (int) Math.min(marked.length, Math.round(startSeconds / HOP_SECONDS));
        int to = (int) Math.min(marked.length, Math.max(from + 1, Math.round(endSeconds / HOP_SECONDS)));
        Arrays.fill(marked, from, to, true);
    }
}
