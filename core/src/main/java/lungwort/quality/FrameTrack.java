package lungwort.quality;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lungwort.signal.Fft;
import lungwort.signal.FrameStream;
import lungwort.signal.Statistics;
import lungwort.signal.Window;

/** What is kept of each short frame ({@value #FRAME_SECONDS} s every {@value #HOP_SECONDS} s) of samples that are pushed in order. Mutable, for one thread. */
final class FrameTrack {
    static final double FRAME_SECONDS = 0.064;
    static final double HOP_SECONDS = 0.025;

    /** Edges of the bands, in Hz. */
    static final double[] EDGES_HZ = {20, 60, 100, 150, 200, 300, 450, 650, 900, 1200, 1600, 2000, 3000, 4000};

    static final int BANDS = EDGES_HZ.length - 1;

    /** Power density given to digital silence, and to bands above half the sample rate, in full scale squared per Hz. */
    private static final double FLOOR = 1e-14;

    static final double FLOOR_DB = -140;

    /** Flatness and centroid are told of this range, in Hz. */
    private static final double LOW_HZ = 100;

    private static final double HIGH_HZ = 1000;

    private final FrameStream stream;
    private final double[] window;
    private final Fft fft;
    private final double binHz;
    private final double scale;
    private final double[] work;
    private final double[] power;
    private final int[] edges = new int[BANDS + 1];
    private final Voicing voicing;
    private final Fft fine;
    private final double[] fineWork;
    private final double[] finePower;
    private final HarmonicComb talk;
    private final HarmonicComb cry;
    private final LevelHistogram histogram;
    private final Flux flux;
    private final List<Frame> frames = new ArrayList<>();

    /**
     * One frame.
     *
     * @param meanDb shape {@code [BANDS]}: mean power density, dB re full scale squared per Hz
     * @param medianDb shape {@code [BANDS]}: median power density
     * @param voice harmonic structure
     * @param talk the best row of harmonics by level alone, that of a soft voice too
     * @param cry the same at the pitch of a child that cries
     * @param flatnessDb geometric over arithmetic mean of the power from 100 to 1000 Hz, in dB, at most 0
     * @param centroidHz centre of the power from 100 to 1000 Hz
     */
    record Frame(
            double[] meanDb,
            double[] medianDb,
            Voicing.Voice voice,
            HarmonicComb.Row talk,
            HarmonicComb.Row cry,
            double flatnessDb,
            double centroidHz) {}

    FrameTrack(int sampleRateHz) {
        stream = new FrameStream(sampleRateHz, FRAME_SECONDS, HOP_SECONDS, this::take);
        window = Window.hannPeriodic(stream.frameSamples());
        fft = Fft.of(Fft.nextPowerOfTwo(stream.frameSamples()));
        binHz = (double) sampleRateHz / fft.size();
        scale = 1 / (Arrays.stream(window).map(w -> w * w).sum() * sampleRateHz);
        work = new double[fft.size()];
        power = new double[fft.bins()];
        for (int b = 0; b <= BANDS; b++) {
            edges[b] = bin(EDGES_HZ[b]);
        }
        voicing = new Voicing(binHz, fft.bins());
        fine = Fft.of(2 * fft.size());
        fineWork = new double[fine.size()];
        finePower = new double[fine.bins()];
        talk = HarmonicComb.talk((double) sampleRateHz / fine.size());
        cry = HarmonicComb.cry((double) sampleRateHz / fine.size());
        histogram = new LevelHistogram(Math.min(fft.bins(), bin(4000)), binHz);
        flux = new Flux(binHz, fft.bins());
    }

    void push(double[] block) {
        stream.push(block);
    }

    List<Frame> frames() {
        return frames;
    }

    LevelHistogram histogram() {
        return histogram;
    }

    /** Mean change of the spectrum, in dB ({@link Flux}). */
    double flux() {
        return flux.mean();
    }

    private int bin(double hz) {
        return Math.min(fft.bins(), (int) Math.ceil(hz / binHz));
    }

    private void take(double[] frame) {
        double mean = Statistics.mean(frame);
        Arrays.fill(work, 0);
        for (int i = 0; i < frame.length; i++) {
            work[i] = window[i] * (frame[i] - mean);
        }
        Arrays.fill(fineWork, 0);
        System.arraycopy(work, 0, fineWork, 0, work.length);
        fft.powerInto(work, power);
        for (int k = 0; k < power.length; k++) {
            power[k] *= scale;
        }
        histogram.add(power);
        flux.add(power);
        double[] means = new double[BANDS];
        double[] medians = new double[BANDS];
        for (int b = 0; b < BANDS; b++) {
            double[] part = Arrays.copyOfRange(power, edges[b], edges[b + 1]);
            means[b] = part.length == 0 ? FLOOR_DB : decibels(Statistics.mean(part));
            medians[b] = part.length == 0 ? FLOOR_DB : decibels(Statistics.medianInPlace(part, part.length));
        }
        double[] levels = fineLevels();
        frames.add(new Frame(
                means, medians, voicing.of(power), talk.of(levels), cry.of(levels), flatnessDb(), centroidHz()));
    }

    /** A spectrum twice as fine, for harmonics may stand close, in dB. */
    private double[] fineLevels() {
        fine.powerInto(fineWork, finePower);
        double[] levels = new double[(int) Math.min(finePower.length, HarmonicComb.TOP_HZ / (binHz / 2) + 2)];
        for (int k = 0; k < levels.length; k++) {
            levels[k] = decibels(finePower[k] * scale);
        }
        return levels;
    }

    static double decibels(double power) {
        return 10 * Math.log10(power + FLOOR);
    }

    private double flatnessDb() {
        double logs = 0;
        double sum = 0;
        int from = bin(LOW_HZ);
        int to = bin(HIGH_HZ);
        for (int k = from; k < to; k++) {
            logs += Math.log10(power[k] + FLOOR);
            sum += power[k] + FLOOR;
        }
        return 10 * (logs / (to - from) - Math.log10(sum / (to - from)));
    }

    private double centroidHz() {
        double sum = 0;
        double moment = 0;
        for (int k = bin(LOW_HZ); k < bin(HIGH_HZ); k++) {
            sum += power[k] + FLOOR;
            moment += k * binHz * (power[k] + FLOOR);
        }
        return moment / sum;
    }
}
