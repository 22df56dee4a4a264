package lungwort.breath;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.signal.Fft;
import lungwort.signal.FrameStream;
import lungwort.signal.Statistics;
import lungwort.signal.Window;

/** Makes {@link BandLevels} of samples that are pushed in order; the result does not depend on how they were cut into blocks. Mutable, for one thread. */
public final class BandLevelMeter {
    private static final double FRAME_SECONDS = 0.064;
    private static final double HOP_SECONDS = 0.025;

    /** Power density given to digital silence, in full scale squared per Hz. */
    private static final double FLOOR = 1e-14;

    private final int sampleRateHz;
    private final double[] window;
    private final double scale;
    private final Fft fft;
    private final double[] work;
    private final double[] power;
    private final List<double[]> frames = new ArrayList<>();
    private final FrameStream stream;

    /** @param sampleRateHz samples a second */
    public BandLevelMeter(int sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.stream = new FrameStream(sampleRateHz, FRAME_SECONDS, HOP_SECONDS, this::take);
        this.window = Window.hannPeriodic(stream.frameSamples());
        double energy = 0;
        for (double w : window) {
            energy += w * w;
        }
        this.scale = 1 / (energy * sampleRateHz);
        this.fft = Fft.of(Fft.nextPowerOfTwo(stream.frameSamples()));
        this.work = new double[fft.size()];
        this.power = new double[fft.bins()];
    }

    /** Levels of a whole recording. */
    public static BandLevels of(Recording recording) {
        BandLevelMeter meter = new BandLevelMeter(recording.sampleRateHz());
        recording.inBlocks(meter::push);
        return meter.levels();
    }

    /** Takes the next samples, any number of them. */
    public void push(double[] block) {
        stream.push(block);
    }

    /** The levels of all that was pushed so far. */
    public BandLevels levels() {
        return new BandLevels(
                frames.toArray(double[][]::new),
                HOP_SECONDS,
                stream.frameSamples() / 2.0 / sampleRateHz,
                (double) stream.pushed() / sampleRateHz);
    }

    private void take(double[] frame) {
        double mean = Statistics.mean(frame);
        Arrays.fill(work, 0);
        for (int i = 0; i < frame.length; i++) {
            work[i] = window[i] * (frame[i] - mean);
        }
        fft.powerInto(work, power);
        double[] levels = new double[BandLevels.BANDS];
        for (int band = 0; band < levels.length; band++) {
            levels[band] = medianDb(BandLevels.EDGES_HZ[band], BandLevels.EDGES_HZ[band + 1]);
        }
        frames.add(levels);
    }

    /** Of the two-sided density: 3 dB under that of {@link lungwort.signal.Spectrogram}. */
    private double medianDb(double fromHz, double toHz) {
        double binHz = (double) sampleRateHz / fft.size();
        int from = Math.min(power.length, (int) Math.ceil(fromHz / binHz));
        int to = Math.min(power.length, (int) Math.ceil(toHz / binHz));
        double[] part = Arrays.copyOfRange(power, from, to);
        double median = part.length == 0 ? 0 : Statistics.medianInPlace(part, part.length);
        return 10 * Math.log10(median * scale + FLOOR);
    }
}
