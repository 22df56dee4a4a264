package lungwort.quality;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lungwort.signal.Fft;
import lungwort.signal.FrameStream;
import lungwort.signal.Statistics;
import lungwort.signal.Window;

/** Looks for mains hum: steady narrow lines at multiples of 50 or 60 Hz, in frames of {@value #FRAME_SECONDS} s. Mutable, for one thread. */
final class LineSpectrum {
    private static final double FRAME_SECONDS = 2;
    private static final double HOP_SECONDS = 1;
    private static final int[] MAINS_HZ = {50, 60};
    private static final int LINES = 6;
    private static final double TOP_HZ = 400;
    private static final double LINE_HALF_HZ = 1.0;
    private static final double NEAR_HZ = 3;
    private static final double FAR_HZ = 10;
    private static final double SECOND_LINE_DB = 6;

    private final int sampleRateHz;
    private final FrameStream stream;
    private final List<double[]> spectra = new ArrayList<>();
    private final double[] window;

    /**
     * The stronger of the two.
     *
     * @param hz 50 or 60
     * @param prominenceDb how far the strongest of its lines stands over what is beside it, in dB; at most 6 dB more than the second strongest, for one line alone is no hum
     */
    record Hum(int hz, double prominenceDb) {}

    LineSpectrum(int sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.stream = new FrameStream(sampleRateHz, FRAME_SECONDS, HOP_SECONDS, this::take);
        this.window = Window.hannPeriodic(stream.frameSamples());
    }

    void push(double[] block) {
        stream.push(block);
    }

    private void take(double[] frame) {
        double mean = Statistics.mean(frame);
        double energy = 0;
        for (int i = 0; i < frame.length; i++) {
            frame[i] = window[i] * (frame[i] - mean);
            energy += window[i] * window[i];
        }
        double[] power = Fft.power(frame);
        double[] low = Arrays.copyOf(power, Math.min(power.length, (int) (TOP_HZ * FRAME_SECONDS)));
        for (int k = 0; k < low.length; k++) {
            low[k] /= energy * sampleRateHz;
        }
        spectra.add(low);
    }

    Hum hum() {
        if (spectra.isEmpty()) {
            return new Hum(MAINS_HZ[0], 0);
        }
        double[] usual = usual();
        Hum first = hum(usual, MAINS_HZ[0]);
        Hum second = hum(usual, MAINS_HZ[1]);
        return second.prominenceDb() > first.prominenceDb() ? second : first;
    }

    /** Median over time per bin: what comes and goes does not count. */
    private double[] usual() {
        double[] usual = new double[spectra.get(0).length];
        double[] over = new double[spectra.size()];
        for (int k = 0; k < usual.length; k++) {
            for (int i = 0; i < over.length; i++) {
                over[i] = spectra.get(i)[k];
            }
            usual[k] = Statistics.medianInPlace(over, over.length);
        }
        return usual;
    }

    private static Hum hum(double[] usual, int mainsHz) {
        double[] prominence = new double[LINES];
        for (int h = 1; h <= LINES; h++) {
            int middle = (int) (h * mainsHz * FRAME_SECONDS);
            double peak = 0;
            for (int k = middle - (int) (LINE_HALF_HZ * FRAME_SECONDS);
                    k <= middle + (int) (LINE_HALF_HZ * FRAME_SECONDS);
                    k++) {
                peak = Math.max(peak, usual[k]);
            }
            prominence[h - 1] = FrameTrack.decibels(peak) - FrameTrack.decibels(beside(usual, middle));
        }
        Arrays.sort(prominence);
        return new Hum(mainsHz, Math.min(prominence[LINES - 1], prominence[LINES - 2] + SECOND_LINE_DB));
    }

    private static double beside(double[] usual, int middle) {
        int near = (int) (NEAR_HZ * FRAME_SECONDS);
        int far = (int) (FAR_HZ * FRAME_SECONDS);
        double[] sides = new double[2 * (far - near + 1)];
        int n = 0;
        for (int d = near; d <= far; d++) {
            sides[n++] = usual[middle - d];
            sides[n++] = usual[Math.min(usual.length - 1, middle + d)];
        }
        return Statistics.medianInPlace(sides, n);
    }
}
