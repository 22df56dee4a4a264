package lungwort.heart;

import java.util.ArrayList;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.signal.Fft;
import lungwort.signal.FrameStream;
import lungwort.signal.Statistics;
import lungwort.signal.Window;

/**
 * Level of the band in which heart sounds are loudest ({@value #LOW_HZ} to {@value #HIGH_HZ} Hz), from samples that are pushed in order. Mutable, for one thread.
 *
 * <p>First and second heart sound have most of their energy below 150 Hz (common practice [C]); below 30 Hz handling rules.
 */
public final class HeartCurve {
    static final double LOW_HZ = 30;
    static final double HIGH_HZ = 130;

    /** Time from one value to the next. */
    static final double HOP_SECONDS = 0.01;

    private static final double FRAME_SECONDS = 0.05;
    private static final double FLOOR = 1e-14;

    private final int sampleRateHz;
    private final FrameStream stream;
    private final double[] window;
    private final Fft fft;
    private final double[] work;
    private final double[] power;
    private final List<Double> levelsDb = new ArrayList<>();

    /** @param sampleRateHz samples a second */
    public HeartCurve(int sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.stream = new FrameStream(sampleRateHz, FRAME_SECONDS, HOP_SECONDS, this::take);
        this.window = Window.hannPeriodic(stream.frameSamples());
        this.fft = Fft.of(Fft.nextPowerOfTwo(2 * stream.frameSamples()));
        this.work = new double[fft.size()];
        this.power = new double[fft.bins()];
    }

    /** The curve of a whole recording. */
    static HeartCurve of(Recording recording) {
        HeartCurve curve = new HeartCurve(recording.sampleRateHz());
        recording.inBlocks(curve::push);
        return curve;
    }

    /** Takes the next samples, any number of them. */
    public void push(double[] block) {
        stream.push(block);
    }

    /** Levels so far, in dB re full scale squared per Hz. */
    double[] levelsDb() {
        return levelsDb.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** Middle of a frame, in seconds. */
    double secondsOf(double frame) {
        return stream.frameSamples() / 2.0 / sampleRateHz + frame * HOP_SECONDS;
    }

    private void take(double[] frame) {
        double mean = Statistics.mean(frame);
        java.util.Arrays.fill(work, 0);
        double energy = 0;
        for (int i = 0; i < frame.length; i++) {
            work[i] = window[i] * (frame[i] - mean);
            energy += window[i] * window[i];
        }
        fft.powerInto(work, power);
        double binHz = (double) sampleRateHz / fft.size();
        int from = (int) Math.ceil(LOW_HZ / binHz);
        int to = (int) Math.floor(HIGH_HZ / binHz);
        double sum = 0;
        for (int k = from; k <= to; k++) {
            sum += power[k];
        }
        levelsDb.add(10 * Math.log10(sum / (to - from + 1) / (energy * sampleRateHz) + FLOOR));
    }
}
