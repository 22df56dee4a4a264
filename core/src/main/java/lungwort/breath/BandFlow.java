package lungwort.breath;

import java.util.Arrays;
import lungwort.signal.Statistics;

/**
 * How strongly air seems to flow at each moment, band by band, told from band levels.
 *
 * @param flow shape {@code [frames][bands]}: 0 about the quietest tenth of the surroundings, 1 about the loudest breath sound there
 * @param weights shape {@code [bands]}: what each band is worth, sum 1
 * @param live shape {@code [frames]}: false where the recording holds no sound at all (dropouts)
 * @param strengthDb spread of the band levels by weight, in dB: small where hardly any breath is heard
 */
record BandFlow(double[][] flow, double[] weights, boolean[] live, double strengthDb) {
    /** Below this, in every band, a frame is digital silence, in dB re full scale squared per Hz. */
    private static final double SILENCE_DB = -135;

    private static final int MEDIAN_FRAMES = 5;
    private static final double SMOOTH_FRAMES = 3;
    private static final double SLOW_FRAMES = 6;
    private static final double LOW_PERCENT = 10;
    private static final double HIGH_PERCENT = 92;
    private static final double MIN_SPREAD_DB = 1;
    private static final double MAX_FLOW = 1.5;
    private static final double MIN_FLOW = -0.4;

    /** How much the surroundings count against the whole recording when a level is judged. */
    private static final double LOCAL_SHARE = 0.5;

    private static final double LOCAL_SECONDS = 12;

    static BandFlow of(BandLevels levels) {
        boolean[] live = live(levels);
        double[][] flow = new double[levels.frames()][BandLevels.BANDS];
        double[] weights = new double[BandLevels.BANDS];
        double sum = 0;
        double strength = 0;
        for (int b = 0; b < BandLevels.BANDS; b++) {
            Band band = Band.of(column(levels, b, live), live, levels.hopSeconds());
            for (int t = 0; t < flow.length; t++) {
                flow[t][b] = band.flow[t];
            }
            weights[b] = band.weight;
            sum += band.weight;
            strength += band.weight * band.spreadDb;
        }
        for (int b = 0; b < weights.length; b++) {
            weights[b] /= sum;
        }
        return new BandFlow(flow, weights, live, strength / sum);
    }

    /** Every {@code step}-th frame. */
    BandFlow every(int step) {
        int n = (flow.length + step - 1) / step;
        double[][] fewer = new double[n][];
        boolean[] fewerLive = new boolean[n];
        for (int i = 0; i < n; i++) {
            fewer[i] = flow[i * step];
            fewerLive[i] = live[i * step];
        }
        return new BandFlow(fewer, weights, fewerLive, strengthDb);
    }

    /** One curve for all bands, by weight. */
    double[] total() {
        double[] total = new double[flow.length];
        for (int t = 0; t < total.length; t++) {
            for (int b = 0; b < weights.length; b++) {
                total[t] += weights[b] * flow[t][b];
            }
        }
        return total;
    }

    private static boolean[] live(BandLevels levels) {
        boolean[] live = new boolean[levels.frames()];
        for (int t = 0; t < live.length; t++) {
            live[t] = Arrays.stream(levels.levelsDb()[t]).anyMatch(level -> level > SILENCE_DB);
        }
        return live;
    }

    /** One band over time; where the recording is dead, its median elsewhere. */
    private static double[] column(BandLevels levels, int band, boolean[] live) {
        double[] column = new double[levels.frames()];
        for (int t = 0; t < column.length; t++) {
            column[t] = levels.levelsDb()[t][band];
        }
        double[] alive = only(column, live);
        double filling = alive.length == 0 ? SILENCE_DB : Statistics.median(alive);
        for (int t = 0; t < column.length; t++) {
            column[t] = live[t] ? column[t] : filling;
        }
        return column;
    }

    private static double[] only(double[] x, boolean[] live) {
        double[] kept = new double[x.length];
        int n = 0;
        for (int t = 0; t < x.length; t++) {
            if (live[t]) {
                kept[n++] = x[t];
            }
        }
        return Arrays.copyOf(kept, n);
    }

    private record Band(double[] flow, double spreadDb, double weight) {
        static Band of(double[] level, boolean[] live, double hopSeconds) {
            double[] smooth = Smoothing.gaussian(Smoothing.median(level, MEDIAN_FRAMES), SMOOTH_FRAMES);
            double[] judged = only(smooth, live);
            double[] ends = Statistics.percentiles(judged.length == 0 ? smooth : judged, LOW_PERCENT, HIGH_PERCENT);
            double[][] local = LocalRange.of(smooth, hopSeconds, LOCAL_SECONDS, LOW_PERCENT, HIGH_PERCENT);
            double share = smooth.length * hopSeconds > 1.2 * LOCAL_SECONDS ? LOCAL_SHARE : 0;
            double[] flow = new double[smooth.length];
            double[] spreads = new double[smooth.length];
            for (int t = 0; t < flow.length; t++) {
                double floor = (1 - share) * ends[0] + share * local[0][t];
                double top = (1 - share) * ends[1] + share * local[1][t];
                spreads[t] = Math.max(top - floor, MIN_SPREAD_DB);
                flow[t] = Math.max(MIN_FLOW, Math.min(MAX_FLOW, (smooth[t] - floor) / spreads[t]));
            }
            double spread = Statistics.median(spreads);
            return new Band(flow, spread, weight(flow, spread, noiseDb(level)));
        }

        /** Breath is slower than heart and clicks: what smoothing takes away is not breath. */
        private static double weight(double[] flow, double spread, double noise) {
            double slow = Statistics.standardDeviation(Smoothing.gaussian(flow, SLOW_FRAMES))
                    / (Statistics.standardDeviation(flow) + 1e-6);
            return Math.max(spread - noise, 0.05) / spread * slow * slow + 1e-9;
        }

        private static double noiseDb(double[] level) {
            double[] slow = Smoothing.gaussian(level, 1);
            double[] rest = new double[level.length];
            for (int t = 0; t < rest.length; t++) {
                rest[t] = Math.abs(level[t] - slow[t]);
            }
            return Statistics.median(rest) * Statistics.MAD_TO_SIGMA;
        }
    }
}
