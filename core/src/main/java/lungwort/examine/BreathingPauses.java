package lungwort.examine;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import lungwort.audio.Recording;
import lungwort.breath.BandLevels;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.signal.Statistics;

/**
 * Finds stretches without a breath. The breath tracker lays breaths even where there are none (it looks for 7.5 a minute and more), so the level of the breath's noise is asked directly:
 * it must stay down, evenly, for {@value #MIN_SECONDS} s and more, with breath sounds that stand out on both sides; where the recording's start or end cuts the stretch, on the side that is left.
 *
 * <p>Nothing is told of a stretch that can mean something else: where the body's low rumble is gone too (the chest piece was off), where samples are missing, where the level wobbles as soft breaths do,
 * and nowhere in a recording that is refused for what hides breaths or that holds none. Limits are common practice [C], set on synthesised recordings and looked at beside
 * the events that listeners marked in SPRSound's training set.
 */
final class BreathingPauses {
    /**
     * Shortest stretch that is told, in seconds. A calm adult's turn lasts up to 4 s; pauses of more than 3 s, in rows, are the periodic breathing of young infants, 20 s and more are an apnoea
     * (Am Fam Physician 2005;71:2301, table of definitions, second-hand).
     */
    static final double MIN_SECONDS = 6;

    /** What hides breaths or feigns their absence, grave or not. */
    private static final Set<QualityIssue> HIDING = EnumSet.of(
            QualityIssue.TOO_SHORT,
            QualityIssue.SILENT,
            QualityIssue.TOO_QUIET,
            QualityIssue.LIFTED,
            QualityIssue.DROPOUTS,
            QualityIssue.NOISE_SUPPRESSED,
            QualityIssue.AUTOMATIC_GAIN);

    /** Bands (200 to 650 Hz) in which breath is told from its absence, and those beside them in which soft breaths may show. */
    private static final int[] BREATH_BANDS = {1, 2, 3};

    private static final int[] BANDS_BESIDE = {0, 4, 5};

    /** Heart beats and touches reach these bands, but fill no stretch of this length: of each, the lower part is taken. */
    private static final double SMOOTH_SECONDS = 0.4;

    private static final double SMOOTH_PERCENT = 35;

    /** Depth, in dB, below which breath stands out too little for its absence to mean anything. */
    private static final double MIN_DEPTH_DB = 8;

    /** Shares of the depth: below the first no breath is heard, above the second one is. */
    private static final double QUIET_SHARE = 0.3;

    private static final double LOUD_SHARE = 0.6;

    /** So much loud breath, in seconds, must stand within so many seconds before and after. */
    private static final double MIN_LOUD_SECONDS = 0.3;

    private static final double BESIDE_SECONDS = 6;

    /** 5th to 95th percentile of the level within the stretch, in dB. Steady noise gives up to 2; soft breaths give 6 and more. */
    private static final double UNEVEN_DB = 5;

    private static final double UNEVEN_BESIDE_DB = 7;

    private static final double EDGE_SECONDS = 0.4;

    /** Power density below which a band holds no sound at all, in dB re full scale squared per Hz. */
    private static final double DEAD_DB = -135;

    private final BandLevels levels;
    private final double[] breath;
    private final double quietDb;
    private final double loudDb;

    private BreathingPauses(BandLevels levels) {
        this.levels = levels;
        this.breath = smoothed(BREATH_BANDS);
        double[] ends = Statistics.percentiles(breath, 10, 95);
        double depth = ends[1] - ends[0];
        boolean deep = depth >= MIN_DEPTH_DB;
        this.quietDb = deep ? ends[0] + QUIET_SHARE * depth : Double.NEGATIVE_INFINITY;
        this.loudDb = ends[0] + LOUD_SHARE * depth;
    }

    /**
     * The stretches of a recording, in order of time.
     *
     * @param recording what was recorded
     * @param levels its band levels
     * @param quality its quality, without what is only learnt: a recording refused for anything grave has none
     */
    static List<BreathingPause> in(Recording recording, BandLevels levels, Quality quality) {
        boolean hidden =
                quality.findings().stream().anyMatch(finding -> finding.grave() || HIDING.contains(finding.issue()));
        return hidden ? List.of() : in(recording, levels);
    }

    /** The same whatever the quality. */
    static List<BreathingPause> in(Recording recording, BandLevels levels) {
        if (levels.durationSeconds() < MIN_SECONDS + BESIDE_SECONDS / 2) {
            return List.of();
        }
        BreathingPauses finder = new BreathingPauses(levels);
        List<int[]> runs = finder.quietRuns();
        if (runs.isEmpty()) {
            return List.of();
        }
        ChestContact contact = ChestContact.of(recording, levels);
        List<BreathingPause> pauses = new ArrayList<>();
        for (int[] run : runs) {
            if (finder.betweenBreaths(run) && finder.even(run) && contact.kept(finder.quiet(), run)) {
                pauses.add(finder.pause(run));
            }
        }
        return List.copyOf(pauses);
    }

    private boolean[] quiet() {
        boolean[] quiet = new boolean[breath.length];
        for (int t = 0; t < quiet.length; t++) {
            quiet[t] = breath[t] < quietDb;
        }
        return quiet;
    }

    /** Long quiet stretches, less than the whole: first frame, and the frame after the last. */
    private List<int[]> quietRuns() {
        boolean[] quiet = quiet();
        List<int[]> runs = new ArrayList<>();
        int from = 0;
        for (int t = 0; t <= quiet.length; t++) {
            if (t == quiet.length || !quiet[t]) {
                if (t - from < quiet.length && (t - from) * levels.hopSeconds() >= MIN_SECONDS) {
                    runs.add(new int[] {from, t});
                }
                from = t + 1;
            }
        }
        return runs;
    }

    private boolean betweenBreaths(int[] run) {
        int beside = frames(BESIDE_SECONDS);
        BreathingPause.Cut cut = cut(run);
        boolean before = loudSeconds(Math.max(0, run[0] - beside), run[0]) >= MIN_LOUD_SECONDS;
        boolean after = loudSeconds(run[1], Math.min(breath.length, run[1] + beside)) >= MIN_LOUD_SECONDS;
        return (before || cut == BreathingPause.Cut.START) && (after || cut == BreathingPause.Cut.END);
    }

    private BreathingPause.Cut cut(int[] run) {
        return run[0] == 0
                ? BreathingPause.Cut.START
                : run[1] == breath.length ? BreathingPause.Cut.END : BreathingPause.Cut.NONE;
    }

    private BreathingPause pause(int[] run) {
        BreathingPause.Cut cut = cut(run);
        return new BreathingPause(
                cut == BreathingPause.Cut.START ? 0 : levels.secondsOf(run[0]),
                cut == BreathingPause.Cut.END ? levels.durationSeconds() : levels.secondsOf(run[1]),
                cut);
    }

    private double loudSeconds(int from, int to) {
        int loud = 0;
        for (int t = from; t < to; t++) {
            loud += breath[t] >= loudDb ? 1 : 0;
        }
        return loud * levels.hopSeconds();
    }

    private boolean even(int[] run) {
        int from = run[0] + frames(EDGE_SECONDS);
        int to = run[1] - frames(EDGE_SECONDS);
        for (int t = from; t < to; t++) {
            if (Arrays.stream(levels.levelsDb()[t]).allMatch(level -> level < DEAD_DB)) {
                return false;
            }
        }
        if (spread(breath, from, to) > UNEVEN_DB) {
            return false;
        }
        return Arrays.stream(BANDS_BESIDE)
                .mapToDouble(band -> spread(smoothed(band), from, to))
                .allMatch(spread -> spread <= UNEVEN_BESIDE_DB);
    }

    private static double spread(double[] x, int from, int to) {
        double[] ends = Statistics.percentiles(Arrays.copyOfRange(x, from, to), 5, 95);
        return ends[1] - ends[0];
    }

    private int frames(double seconds) {
        return (int) Math.round(seconds / levels.hopSeconds());
    }

    /** Mean level of some bands, without what is short. */
    private double[] smoothed(int... bands) {
        double[] level = new double[levels.frames()];
        for (int t = 0; t < level.length; t++) {
            for (int band : bands) {
                level[t] += levels.levelsDb()[t][band] / bands.length;
            }
        }
        return running(level, frames(SMOOTH_SECONDS), SMOOTH_PERCENT);
    }

    /** A percentile of the frames around each frame. */
    static double[] running(double[] x, int width, double percent) {
        double[] out = new double[x.length];
        for (int t = 0; t < x.length; t++) {
            int from = Math.max(0, t - width / 2);
            int to = Math.min(x.length, t + width / 2 + 1);
            out[t] = Statistics.percentile(Arrays.copyOfRange(x, from, to), percent);
        }
        return out;
    }
}
