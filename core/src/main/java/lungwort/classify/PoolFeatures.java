package lungwort.classify;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A recording's windows pooled into one vector, with the recording's own features behind: of each logit that the two models give a window (continuous, discontinuous, poor
 * quality and not normal by the window model; normal, continuous and discontinuous by the segment model; discontinuous by the bursts' model), the three highest, the quartiles, the mean and the share above zero. Where there is a net over mel levels, its logits stand last.
 */
final class PoolFeatures {
    private static final int SERIES = 8;
    private static final int STATISTICS = 8;

    /** Number of pooled values, before the recording's own features. */
    static final int POOLED = SERIES * STATISTICS + 1;

    private static final String BURSTS = "bursts.discontinuous";
    private static final String[] SERIES_NAMES = {
        "window.continuous",
        "window.discontinuous",
        "window.poorQuality",
        "window.notNormal",
        "segment.normal",
        "segment.continuous",
        "segment.discontinuous",
        BURSTS
    };
    /** Names of the logits of the net, for recipes. */
    static final List<String> NET_NAMES = List.of("net.continuous", "net.discontinuous", "net.poorQuality");

    private static final String[] STATISTIC_NAMES = {"top1", "top2", "top3", "p25", "p50", "p75", "mean", "share"};

    private PoolFeatures() {}

    /** Name of a pooled value, for recipes that leave some out: {@code pool.segment.normal.mean}; the last is {@code pool.windows}. */
    static String name(int index) {
        return index == POOLED - 1
                ? "pool.windows"
                : "pool." + SERIES_NAMES[index / STATISTICS] + "." + STATISTIC_NAMES[index % STATISTICS];
    }

    /**
     * Length of a row.
     *
     * @param net true if there is a net
     */
    static int size(int recordingFeatures, boolean net) {
        return POOLED + recordingFeatures + (net ? ChestNet.OUTPUTS : 0);
    }

    /** True for what the bursts' model says; 0 where there is no such model. */
    static boolean ofBursts(String name) {
        return name.startsWith("pool." + BURSTS);
    }

    /**
     * @param windows what the models say of the recording's windows, at least one
     * @param netLogits {@link ChestNet#logits} of the recording; null where there is no net, and then the row has no place for them
     * @param recording the recording's own features
     */
    static float[] of(List<WindowAnswer> windows, double @Nullable [] netLogits, float[] recording) {
        double[][] aspect = windows.stream().map(PoolFeatures::aspects).toArray(double[][]::new);
        float[] row = new float[size(recording.length, netLogits != null)];
        int at = 0;
        for (int s = 0; s < SERIES; s++) {
            int series = s;
            at = pool(Arrays.stream(aspect).mapToDouble(a -> a[series]).toArray(), row, at);
        }
        row[at++] = (float) Math.log(windows.size());
        System.arraycopy(recording, 0, row, at, recording.length);
        // Behind all others, so that columns of models without a net keep their numbers.
        for (int k = 0; netLogits != null && k < netLogits.length; k++) {
            row[POOLED + recording.length + k] = (float) netLogits[k];
        }
        return row;
    }

    private static double[] aspects(WindowAnswer answer) {
        double[] byWindow = TakesFeatures.aspects(answer.asWindow());
        double[] bySegment = ContextFeatures.aspects(answer.asSegment());
        double[] all = Arrays.copyOf(byWindow, SERIES);
        System.arraycopy(bySegment, 0, all, byWindow.length, bySegment.length);
        all[SERIES - 1] =
                answer.bursts() == null ? 0 : WindowAnswer.logit(answer.bursts().alone());
        return all;
    }

    private static int pool(double[] series, float[] row, int start) {
        double[] sorted = series.clone();
        Arrays.sort(sorted);
        int n = sorted.length;
        long many = Arrays.stream(sorted).filter(v -> v > 0).count();
        int at = start;
        for (int top = 1; top <= 3; top++) {
            row[at++] = (float) sorted[Math.max(0, n - top)];
        }
        for (int quarter = 1; quarter <= 3; quarter++) {
            row[at++] = (float) sorted[(int) Math.round(0.25 * quarter * (n - 1))];
        }
        row[at++] = (float) Arrays.stream(sorted).average().orElse(0);
        row[at++] = (float) ((double) many / n);
        return at;
    }
}
