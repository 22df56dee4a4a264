package lungwort.page;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.signal.Spectrogram;

/** Three small tests of the chain from chest piece to file: tap, silence, bandwidth. They say what can be heard through it, not whether it is a good stethoscope. */
final class Equipment {
    /** Wheeze and crackle energy up to here is what the suggestion uses; below it, something is lost. Common practice. */
    static final double WANTED_HZ = 1_800;

    /** Below this, higher wheezes and much of a fine crackle are lost. Common practice. */
    static final double NARROW_HZ = 1_000;

    /** A tap must stand out of the quiet by this much, in dB. Common practice. */
    static final double TAP_DB = 20;

    /** Louder than this and a soft breath sound drowns, in dB re full scale. Common practice. */
    static final double LOUD_SILENCE_DBFS = -45;

    /** A band counts as heard where it stands out of the quiet by this much, in dB. */
    private static final double BAND_DB = 6;

    private static final double BLOCK_SECONDS = 0.02;
    private static final double SILENT_PEAK = 2.0 / 32768;
    private static final double BAND_HZ = 100;

    private Equipment() {}

    /** Whether a tap on the chest piece comes through. */
    static Check tap(Recording recording) {
        double[] levels = blockLevels(recording);
        double floor = quantile(levels, 0.3);
        double loudest = quantile(levels, 1);
        boolean passed = peak(recording) >= SILENT_PEAK && loudest - floor >= TAP_DB;
        return new Check(passed ? "tap-heard" : "tap-not-heard", passed, loudest - floor);
    }

    /** How loud the chain is when nothing is to be heard. */
    static Check silence(Recording recording) {
        if (peak(recording) < SILENT_PEAK) {
            return new Check("silence-dead", false, -120);
        }
        double level = quantile(blockLevels(recording), 0.5);
        boolean passed = level <= LOUD_SILENCE_DBFS;
        return new Check(passed ? "silence-quiet" : "silence-loud", passed, level);
    }

    /**
     * Up to which frequency rubbing the chest piece stands out of the quiet.
     *
     * @param rubbing while a finger rubs the chest piece: sound at all frequencies
     * @param quiet the silence test's recording, at the same sample rate
     */
    static Check bandwidth(Recording rubbing, Recording quiet) {
        if (rubbing.sampleRateHz() != quiet.sampleRateHz()) {
            throw new lungwort.BadInput("The microphone changed between the tests; do the silence test again.");
        }
        double[] loud = bands(rubbing);
        double[] floor = bands(quiet);
        int top = 0;
        int missing = 0;
        for (int band = 1; band < loud.length && missing < 3; band++) {
            boolean heard = loud[band] - floor[band] >= BAND_DB;
            missing = heard ? 0 : missing + 1;
            top = heard ? band : top;
        }
        double hz = top == 0 ? 0 : (top + 1) * BAND_HZ;
        String id = top == 0
                ? "bandwidth-nothing"
                : hz >= WANTED_HZ ? "bandwidth-wide" : hz >= NARROW_HZ ? "bandwidth-narrow" : "bandwidth-very-narrow";
        return new Check(id, hz >= WANTED_HZ, hz);
    }

    /**
     * What a test found.
     *
     * @param id what it means, a name in the page's texts
     * @param passed true if nothing is to be mended
     * @param value dB, dB re full scale, or Hz
     */
    record Check(String id, boolean passed, double value) {}

    /** Half of what lies between the lowest and the highest sample, so that a constant offset does not pass for life. */
    private static double peak(Recording recording) {
        DoubleSummaryStatistics all = Arrays.stream(recording.samples()).summaryStatistics();
        return all.getCount() == 0 ? 0 : (all.getMax() - all.getMin()) / 2;
    }

    private static double[] blockLevels(Recording recording) {
        int block = Math.max(1, (int) (BLOCK_SECONDS * recording.sampleRateHz()));
        double[] x = recording.samples();
        List<Double> levels = new ArrayList<>();
        for (int start = 0; start + block <= x.length; start += block) {
            double sum = 0;
            double power = 0;
            for (int i = start; i < start + block; i++) {
                sum += x[i];
                power += x[i] * x[i];
            }
            // Many a microphone has a constant offset, which nobody hears.
            double heard = Math.max(0, power / block - sum / block * (sum / block));
            levels.add(10 * Math.log10(heard + 1e-12));
        }
        return levels.stream().mapToDouble(d -> d).toArray();
    }

    /** Level of each band of {@value #BAND_HZ} Hz in dB: the median over time. */
    private static double[] bands(Recording recording) {
        int rate = recording.sampleRateHz();
        int frame = Integer.highestOneBit(Math.max(64, rate / 20));
        Spectrogram spectrogram = Spectrogram.of(recording.samples(), rate, frame, frame / 2, frame);
        int count = (int) (Math.min(rate / 2.0, 20_000) / BAND_HZ);
        double[] levels = new double[count];
        for (int band = 0; band < count; band++) {
            int from = spectrogram.binOf(band * BAND_HZ);
            int to = Math.max(from + 1, spectrogram.binOf((band + 1) * BAND_HZ));
            double[] overTime = new double[spectrogram.frames()];
            for (int f = 0; f < overTime.length; f++) {
                double sum = 0;
                for (int bin = from; bin < to; bin++) {
                    sum += spectrogram.power(f, bin);
                }
                overTime[f] = 10 * Math.log10(sum / (to - from) + 1e-20);
            }
            levels[band] = quantile(overTime, 0.5);
        }
        return levels;
    }

    private static double quantile(double[] values, double p) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted.length == 0 ? -120 : sorted[(int) Math.round(p * (sorted.length - 1))];
    }
}
