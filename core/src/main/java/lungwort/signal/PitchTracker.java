package lungwort.signal;

import be.tarsos.dsp.pitch.PitchDetectionResult;
import be.tarsos.dsp.pitch.Yin;
import java.util.Arrays;

/** Fundamental frequency of a stretch of sound by YIN (de Cheveigné and Kawahara, J Acoust Soc Am 2002), as TarsosDSP carries it; within 1 % up to a tenth of the sample rate, coarser above, where a period is only a few samples. */
public final class PitchTracker {
    /** Normalised difference below which YIN calls a stretch voiced; the paper uses 0.1, noise behind a wheeze asks for more. */
    private static final double THRESHOLD = 0.2;

    private PitchTracker() {}

    /**
     * @param x samples; only read
     * @param from first sample
     * @param length samples, at least two periods of the lowest pitch wanted; the lowest found is {@code 2 rateHz / length}
     * @param rateHz samples a second
     * @return the fundamental in Hz, or NaN if the stretch has none
     */
    public static double fundamentalHz(double[] x, int from, int length, int rateHz) {
        float[] part = new float[length];
        double peak = 0;
        for (int i = from; i < from + length; i++) {
            peak = Math.max(peak, Math.abs(x[i]));
        }
        if (length < 4 || !(peak > 0)) {
            return Double.NaN;
        }
        for (int i = 0; i < length; i++) {
            part[i] = (float) (x[from + i] / peak);
        }
        PitchDetectionResult result = new Yin(rateHz, length, THRESHOLD).getPitch(part);
        return result.isPitched() && result.getPitch() > 0 ? result.getPitch() : Double.NaN;
    }

    /** The median of the fundamentals of overlapping stretches (half overlap) over [from, to); NaN if fewer than half of them have one. */
    public static double medianHz(double[] x, int from, int to, int length, int rateHz) {
        int hop = Math.max(1, length / 2);
        double[] found = new double[Math.max(0, to - from - length) / hop + 1];
        int count = 0;
        int tried = 0;
        for (int at = from; at + length <= to; at += hop) {
            tried++;
            double hz = fundamentalHz(x, at, length, rateHz);
            if (!Double.isNaN(hz)) {
                found[count++] = hz;
            }
        }
        return count == 0 || 2 * count < tried ? Double.NaN : Statistics.median(Arrays.copyOf(found, count));
    }
}
