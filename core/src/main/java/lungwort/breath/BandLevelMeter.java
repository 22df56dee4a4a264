package lungwort.breath;

import java.util.ArrayList;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.signal.Fft;
import lungwort.signal.Statistics;
import lungwort.signal.Window;

/** Makes {@link BandLevels} of samples that are pushed in order; the result does not depend on how they were cut into blocks. Mutable, for one thread. */
public final class BandLevelMeter {
    private static final double FRAME_SECONDS = 0.064;
    private static final double HOP_SECONDS = 0.025;

    /** Power density given to digital silence, in full scale squared per Hz. */
    private static final double FLOOR = 1e-14;

    private final int sampleRateHz;
    private final int frameSamples;
    private final double[] window;
    private final double scale;
    private final Fft fft;
    private final double[] history;
    private final double[] work;
    private final double[] power;
    private final List<double[]> frames = new ArrayList<>();
    private long pushed;

    /** @param sampleRateHz samples a second */
    public BandLevelMeter(int sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.frameSamples = (int) Math.round(FRAME_SECONDS * sampleRateHz);
        this.window = Window.hannPeriodic(frameSamples);
        double energy = 0;
        for (double w : window) {
            energy += w * w;
        }
        this.scale = 1 / (energy * sampleRateHz);
        this.fft = Fft.of(Fft.nextPowerOfTwo(frameSamples));
        this.history = new double[frameSamples];
        this.work = new double[fft.size()];
        this.power = new double[fft.bins()];
    }

    /** Levels of a whole recording. */
    public static BandLevels of(Recording recording) {
        BandLevelMeter meter = new BandLevelMeter(recording.sampleRateHz());
        meter.push(recording.samples());
        return meter.levels();
    }

    /** Takes the next samples, any number of them. */
    public void push(double[] block) {
        for (double x : block) {
            history[(int) (pushed++ % frameSamples)] = x;
            if (pushed == startOf(frames.size()) + frameSamples) {
                frames.add(frame());
            }
        }
    }

    /** The levels of all that was pushed so far. */
    public BandLevels levels() {
        return new BandLevels(
                frames.toArray(double[][]::new),
                HOP_SECONDS,
                frameSamples / 2.0 / sampleRateHz,
                (double) pushed / sampleRateHz);
    }

    private long startOf(int frame) {
        return Math.round(frame * HOP_SECONDS * sampleRateHz);
    }

    private double[] frame() {
        int oldest = (int) (pushed % frameSamples);
        double mean = Statistics.mean(history);
        for (int i = 0; i < frameSamples; i++) {
            work[i] = window[i] * (history[(oldest + i) % frameSamples] - mean);
        }
        java.util.Arrays.fill(work, frameSamples, work.length, 0);
        fft.powerInto(work, power);
        double[] levels = new double[BandLevels.BANDS];
        for (int band = 0; band < levels.length; band++) {
            levels[band] = medianDb(BandLevels.EDGES_HZ[band], BandLevels.EDGES_HZ[band + 1]);
        }
        return levels;
    }

    private double medianDb(double fromHz, double toHz) {
        double binHz = (double) sampleRateHz / fft.size();
        int from = Math.min(power.length, (int) Math.ceil(fromHz / binHz));
        int to = Math.min(power.length, (int) Math.ceil(toHz / binHz));
        double[] part = java.util.Arrays.copyOfRange(power, from, to);
        double median = part.length == 0 ? 0 : Statistics.medianInPlace(part, part.length);
        return 10 * Math.log10(median * scale + FLOOR);
    }
}
