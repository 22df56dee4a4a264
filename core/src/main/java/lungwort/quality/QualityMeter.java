package lungwort.quality;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Gathers {@link QualityMeasures} from samples that are pushed in order; what it returns does not depend on how they were cut into blocks. Mutable, for one thread. */
final class QualityMeter {
    /** Level given to a frame of zeros, in dB re full scale: below one step of 16 bits. */
    static final double FLOOR_DBFS = -120;

    private static final double FRAME_SECONDS = 0.05;

    private final int sampleRateHz;
    private final double[] frame;
    private final List<Double> levelsDbfs = new ArrayList<>();
    private final FlatTops flatTops = new FlatTops();
    private int filled;
    private long samples;

    QualityMeter(int sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
        this.frame = new double[(int) Math.round(FRAME_SECONDS * sampleRateHz)];
    }

    void push(double[] block) {
        for (double x : block) {
            flatTops.push(x);
            frame[filled++] = x;
            if (filled == frame.length) {
                levelsDbfs.add(levelDbfs(frame));
                filled = 0;
            }
        }
        samples += block.length;
    }

    QualityMeasures measures() {
        double[] sorted =
                levelsDbfs.stream().mapToDouble(Double::doubleValue).sorted().toArray();
        return new QualityMeasures(
                (double) samples / sampleRateHz,
                flatTops.peak(),
                quantile(sorted, 0.5),
                quantile(sorted, 0.9) - quantile(sorted, 0.1),
                samples == 0 ? 0 : (double) flatTops.clipped() / samples);
    }

    private static double levelDbfs(double[] frame) {
        double mean = Arrays.stream(frame).average().orElse(0);
        double power = 0;
        for (double x : frame) {
            power += (x - mean) * (x - mean);
        }
        return Math.max(FLOOR_DBFS, 10 * Math.log10(power / frame.length + 1e-30));
    }

    private static double quantile(double[] sorted, double p) {
        return sorted.length == 0 ? FLOOR_DBFS : sorted[(int) Math.round(p * (sorted.length - 1))];
    }
}
