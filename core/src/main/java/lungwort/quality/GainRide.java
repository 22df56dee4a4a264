package lungwort.quality;

import java.util.Arrays;
import java.util.List;
import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/**
 * Signs of a device that changes its gain by itself.
 *
 * @param rideDb how much the band that holds no breath moves when breath grows loud against it, in dB: about 0 with a fixed gain, clearly negative with automatic gain
 * @param gateDb depth of sudden falls of all bands together to the floor, in dB: noise suppression; 0 where there are none
 */
record GainRide(double rideDb, double gateDb) {
    /** The reference band: the highest full one below 2 kHz, where breath over the chest is weakest. */
    private static final int REFERENCE_BAND = 10;

    private static final int BREATH_FROM = 4;
    private static final int BREATH_TO = 6;
    private static final double SMOOTH_SECONDS = 0.3;
    private static final double GATE_STEP_SECONDS = 0.25;
    private static final double GATE_FALL_DB = 12;
    private static final int MIN_FALLS = 2;

    /** Half of the time a gate takes to close; breath fades more slowly. */
    private static final int GATE_HALF_FRAMES = 3;

    private static final double NEAR_FLOOR_DB = 6;

    static GainRide of(List<FrameTrack.Frame> frames) {
        if (frames.size() * FrameTrack.HOP_SECONDS < 2) {
            return new GainRide(0, 0);
        }
        double[] reference = column(frames, REFERENCE_BAND);
        double[] tilt = new double[reference.length];
        for (int b = BREATH_FROM; b <= BREATH_TO; b++) {
            double[] band = column(frames, b);
            for (int t = 0; t < tilt.length; t++) {
                tilt[t] += (band[t] - reference[t]) / (BREATH_TO - BREATH_FROM + 1);
            }
        }
        double[] quartiles = Statistics.percentiles(tilt, 25, 75);
        double loud = meanWhere(reference, tilt, quartiles[1], Double.POSITIVE_INFINITY);
        double soft = meanWhere(reference, tilt, Double.NEGATIVE_INFINITY, quartiles[0]);
        return new GainRide(loud - soft, gate(frames));
    }

    private static double[] column(List<FrameTrack.Frame> frames, int band) {
        double[] column = new double[frames.size()];
        Arrays.setAll(column, t -> frames.get(t).medianDb()[band]);
        return Envelope.smoothed(column, (int) (SMOOTH_SECONDS / FrameTrack.HOP_SECONDS));
    }

    private static double meanWhere(double[] x, double[] by, double from, double to) {
        double sum = 0;
        int n = 0;
        for (int t = 0; t < x.length; t++) {
            if (by[t] >= from && by[t] <= to) {
                sum += x[t];
                n++;
            }
        }
        return n == 0 ? 0 : sum / n;
    }

    /** Median depth of the falls in the band that falls least, or 0 with fewer than two falls. */
    private static double gate(List<FrameTrack.Frame> frames) {
        int[] bands = {2, 4, 6, 8, 10};
        double[][] levels = new double[bands.length][];
        double[] floors = new double[bands.length];
        for (int i = 0; i < bands.length; i++) {
            int band = bands[i];
            levels[i] = new double[frames.size()];
            Arrays.setAll(levels[i], t -> frames.get(t).medianDb()[band]);
            floors[i] = Statistics.percentile(levels[i], 10);
        }
        int step = (int) (GATE_STEP_SECONDS / FrameTrack.HOP_SECONDS);
        double[] falls = new double[frames.size()];
        int n = 0;
        int free = 0;
        for (int t = step; t + step < frames.size(); t++) {
            double fall = fallAt(levels, floors, t, step);
            if (fall >= GATE_FALL_DB && t >= free) {
                falls[n++] = fall;
                free = t + 2 * step;
            }
        }
        return n < MIN_FALLS ? 0 : Statistics.medianInPlace(falls, n);
    }

    private static double fallAt(double[][] levels, double[] floors, int t, int step) {
        double least = Double.MAX_VALUE;
        for (int i = 0; i < levels.length; i++) {
            double before = median(levels[i], t - step, t - GATE_HALF_FRAMES);
            double after = median(levels[i], t + GATE_HALF_FRAMES, t + step);
            boolean lands = after <= floors[i] + NEAR_FLOOR_DB;
            least = Math.min(least, lands ? before - after : 0);
        }
        return least;
    }

    private static double median(double[] x, int from, int to) {
        return Statistics.median(Arrays.copyOfRange(x, from, to + 1));
    }
}
