package lungwort.quality;

import lungwort.signal.Statistics;

/** How often each frequency had each level, in steps of 1 dB: gives the usual spectrum of a recording of any length in little memory. */
final class LevelHistogram {
    private static final int LOWEST_DB = -140;
    private static final int STEPS = 141;

    /** A steep edge: the level falls by this much within a third of an octave... */
    private static final double EDGE_FALL_DB = 20;

    /** ... and stays down: nothing above comes back to within this of the level before the edge. */
    private static final double STAY_DOWN_DB = 15;

    private static final double THIRD_OCTAVE = Math.pow(2, 1.0 / 3);

    /** Edges are looked for above this, in Hz: below, breath itself falls steeply. */
    private static final double MIN_EDGE_HZ = 250;

    private static final int SMOOTH_BINS = 5;

    private final int[][] counts;
    private final double binHz;
    private int frames;

    LevelHistogram(int bins, double binHz) {
        this.counts = new int[bins][STEPS];
        this.binHz = binHz;
    }

    void add(double[] power) {
        for (int k = 0; k < counts.length; k++) {
            int step = (int) Math.round(FrameTrack.decibels(power[k])) - LOWEST_DB;
            counts[k][Math.max(0, Math.min(STEPS - 1, step))]++;
        }
        frames++;
    }

    /** Median level per bin, smoothed over neighbours, in dB; shape {@code [bins]}. */
    double[] usualDb() {
        double[] raw = new double[counts.length];
        for (int k = 0; k < raw.length; k++) {
            int sum = 0;
            int step = 0;
            while (step < STEPS - 1 && sum + counts[k][step] <= frames / 2) {
                sum += counts[k][step++];
            }
            raw[k] = LOWEST_DB + (double) step;
        }
        double[] smooth = new double[raw.length];
        double[] part = new double[SMOOTH_BINS];
        for (int k = 0; k < raw.length; k++) {
            for (int i = 0; i < SMOOTH_BINS; i++) {
                part[i] = raw[Math.max(0, Math.min(raw.length - 1, k + i - SMOOTH_BINS / 2))];
            }
            smooth[k] = Statistics.medianInPlace(part, SMOOTH_BINS);
        }
        return smooth;
    }

    /** The frequency above which a device or codec let nothing through, in Hz; the highest frequency seen where there is no steep edge. */
    double bandLimitHz() {
        double[] level = usualDb();
        if (frames == 0) {
            return counts.length * binHz;
        }
        double[] highestFrom = new double[level.length + 1];
        highestFrom[level.length] = Double.NEGATIVE_INFINITY;
        for (int k = level.length - 1; k >= 0; k--) {
            highestFrom[k] = Math.max(level[k], highestFrom[k + 1]);
        }
        for (int k = (int) Math.ceil(MIN_EDGE_HZ / binHz); k * THIRD_OCTAVE < level.length - 1; k++) {
            int above = (int) Math.ceil(k * THIRD_OCTAVE);
            if (level[k] - level[above] >= EDGE_FALL_DB && level[k] - highestFrom[above] >= STAY_DOWN_DB) {
                return edgeHz(level, k, above);
            }
        }
        return counts.length * binHz;
    }

    /** Where the level has fallen by 6 dB from its highest between two bins. */
    private double edgeHz(double[] level, int from, int to) {
        for (int k = from; k <= to; k++) {
            if (level[k] < level[from] - 6) {
                return k * binHz;
            }
        }
        return to * binHz;
    }
}
