package lungwort.breath;

import java.util.Arrays;
import lungwort.signal.Statistics;

/** Low and high percentile of a curve in the surroundings of each frame. */
final class LocalRange {
    private LocalRange() {}

    /**
     * @param x curve
     * @param hopSeconds time from one frame to the next
     * @param windowSeconds length of the surroundings, centred on the frame
     * @return shape {@code [2][frames]}: the low and the high percentile; computed once a second, interpolated between
     */
    static double[][] of(double[] x, double hopSeconds, double windowSeconds, double lowPercent, double highPercent) {
        int half = (int) (windowSeconds / 2 / hopSeconds);
        int step = Math.max(1, (int) (1 / hopSeconds));
        int knots = (x.length + step - 1) / step;
        double[][] ends = new double[knots][];
        for (int k = 0; k < knots; k++) {
            int from = Math.max(0, k * step - half);
            int to = Math.min(x.length, k * step + half + 1);
            ends[k] = Statistics.percentiles(Arrays.copyOfRange(x, from, to), lowPercent, highPercent);
        }
        double[][] range = new double[2][x.length];
        for (int t = 0; t < x.length; t++) {
            int k = Math.min(t / step, knots - 1);
            int next = Math.min(k + 1, knots - 1);
            double part = (double) (t - k * step) / step;
            range[0][t] = ends[k][0] + part * (ends[next][0] - ends[k][0]);
            range[1][t] = ends[k][1] + part * (ends[next][1] - ends[k][1]);
        }
        return range;
    }
}
