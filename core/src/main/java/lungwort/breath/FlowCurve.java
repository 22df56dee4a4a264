package lungwort.breath;

import java.util.Arrays;
import lungwort.signal.Statistics;

/**
 * How strongly air seems to flow at each moment, told from band levels.
 *
 * @param flow shape {@code [frames]}: 0 about the quietest tenth of the recording, 1 about its loudest breath sound
 * @param colour shape {@code [frames]}: positive where the low bands stand higher than the high ones, negative where lower; within about [-1, 1]
 * @param strengthDb weighted spread of the band levels behind the curve, in dB: small where hardly any breath is heard
 */
record FlowCurve(double[] flow, double[] colour, double strengthDb) {
    private static final int MEDIAN_FRAMES = 5;
    private static final double SMOOTH_FRAMES = 3;
    private static final double SLOW_FRAMES = 6;
    private static final double LOW_PERCENT = 10;
    private static final double HIGH_PERCENT = 92;
    private static final int LOW_BANDS = 3;
    private static final double MAX_FLOW = 1.4;
    private static final double MIN_FLOW = -0.3;

    static FlowCurve of(BandLevels levels) {
        int frames = levels.frames();
        double[] flow = new double[frames];
        double[] low = new double[frames];
        double[] high = new double[frames];
        double weights = 0;
        double lowWeights = 0;
        double strength = 0;
        for (int b = 0; b < BandLevels.BANDS; b++) {
            Band band = Band.of(column(levels, b));
            weights += band.weight;
            strength += band.weight * band.spreadDb;
            boolean isLow = b < LOW_BANDS;
            lowWeights += isLow ? band.weight : 0;
            double[] part = isLow ? low : high;
            for (int t = 0; t < frames; t++) {
                double over = band.smooth[t] - band.floorDb;
                flow[t] += band.weight * over;
                part[t] += band.weight * clamp(over / band.spreadDb, MIN_FLOW, MAX_FLOW);
            }
        }
        double[] colour = new double[frames];
        for (int t = 0; t < frames; t++) {
            colour[t] = low[t] / lowWeights - high[t] / (weights - lowWeights);
        }
        return new FlowCurve(normalised(flow), colour, strength / weights);
    }

    private static double[] normalised(double[] flow) {
        double[] ends = Statistics.percentiles(flow, LOW_PERCENT, HIGH_PERCENT);
        double range = Math.max(ends[1] - ends[0], 1e-6);
        return Arrays.stream(flow)
                .map(f -> clamp((f - ends[0]) / range, MIN_FLOW, MAX_FLOW))
                .toArray();
    }

    private static double[] column(BandLevels levels, int band) {
        double[] column = new double[levels.frames()];
        for (int t = 0; t < column.length; t++) {
            column[t] = levels.levelsDb()[t][band];
        }
        return column;
    }

    private static double clamp(double x, double low, double high) {
        return Math.max(low, Math.min(high, x));
    }

    /** One band: smoothed, with what it is worth. */
    private record Band(double[] smooth, double floorDb, double spreadDb, double weight) {
        static Band of(double[] level) {
            double[] smooth = Smoothing.gaussian(Smoothing.median(level, MEDIAN_FRAMES), SMOOTH_FRAMES);
            double[] ends = Statistics.percentiles(smooth, LOW_PERCENT, HIGH_PERCENT);
            double spread = Math.max(ends[1] - ends[0], 0.5);
            double noise = noiseOf(level);
            // Breath is slower than heart and clicks: what smoothing takes away is not breath.
            double slow = Statistics.standardDeviation(Smoothing.gaussian(smooth, SLOW_FRAMES))
                    / (Statistics.standardDeviation(smooth) + 1e-6);
            double weight = Math.max(spread - noise, 0.05) / spread * slow * slow + 1e-6;
            return new Band(smooth, ends[0], spread, weight);
        }

        private static double noiseOf(double[] level) {
            double[] slow = Smoothing.gaussian(level, 1);
            double[] rest = new double[level.length];
            for (int t = 0; t < rest.length; t++) {
                rest[t] = Math.abs(level[t] - slow[t]);
            }
            return Statistics.median(rest) * Statistics.MAD_TO_SIGMA;
        }
    }
}
