package lungwort.feature;

import java.util.Arrays;
import lungwort.signal.Fft;
import lungwort.signal.Window;

/** How fast band levels come and go: the power spectrum of each level envelope in bands of modulation frequency, octaves but for the lowest and the highest. */
final class ModulationFeatures {
    private static final double[] EDGES_HZ = {1, 2.5, 5, 10, 20, 40, 80, 160, 400};
    private static final String[] NAMES = {
        "1-2.5Hz", "2.5-5Hz", "5-10Hz", "10-20Hz", "20-40Hz", "40-80Hz", "80-160Hz", "160-400Hz"
    };
    private static final int MIN_FFT = 1024;

    private ModulationFeatures() {}

    static void write(FeatureFrames o, int from, int to, FeatureWriter w) {
        double[][] levels = o.envelopes.level;
        double[] meanShape = new double[NAMES.length];
        for (int b = 0; b < levels.length; b++) {
            double[] spectrum = octaves(levels[b], from, to);
            double mean = Arrays.stream(spectrum).average().orElse(0);
            for (int i = 0; i < NAMES.length; i++) {
                w.put(
                        "modulation." + Bands.ENVELOPE_NAMES[b],
                        NAMES[i],
                        "dB",
                        "power of the level's fluctuation",
                        spectrum[i]);
                meanShape[i] += (spectrum[i] - mean) / levels.length;
            }
        }
        for (int i = 0; i < NAMES.length; i++) {
            w.put(
                    "modulation.shape",
                    NAMES[i],
                    "dB",
                    "the same less its mean over modulation bands, averaged over bands",
                    meanShape[i]);
        }
    }

    private static double[] octaves(double[] level, int from, int to) {
        int n = to - from;
        double[] window = Window.hannSymmetric(n);
        double mean = 0;
        for (int i = from; i < to; i++) {
            mean += level[i] / n;
        }
        Fft fft = Fft.of(Fft.nextPowerOfTwo(Math.max(MIN_FFT, n)));
        double[] x = new double[fft.size()];
        for (int i = 0; i < n; i++) {
            x[i] = (level[from + i] - mean) * window[i];
        }
        double[] power = new double[fft.bins()];
        fft.powerInto(x, power);
        double[] octaves = new double[NAMES.length];
        double binHz = (double) EnvelopeFrames.RATE_HZ / fft.size();
        for (int i = 0; i < octaves.length; i++) {
            int low = (int) Math.ceil(EDGES_HZ[i] / binHz);
            int high = Math.min(power.length, (int) Math.ceil(EDGES_HZ[i + 1] / binHz));
            double sum = 0;
            for (int k = low; k < high; k++) {
                sum += power[k];
            }
            octaves[i] = 10 * Math.log10(sum / Math.max(1, high - low) / n + 1e-6);
        }
        return octaves;
    }
}
