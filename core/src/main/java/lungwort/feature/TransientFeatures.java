package lungwort.feature;

/** What tells of crackles: how often and how far short bursts rise over their surroundings in each band. */
final class TransientFeatures {
    private static final double[] PERCENTS = {75, 90, 95, 98, 99.5};
    private static final String[] PERCENT_NAMES = {"p75", "p90", "p95", "p98", "p99.5"};
    private static final double[] LIMITS_DB = {5, 7, 9, 12, 15};
    private static final String[] LIMIT_NAMES = {"over5dB", "over7dB", "over9dB", "over12dB", "over15dB"};
    private static final double[] JOINT_LIMITS_DB = {12, 18, 25, 35};
    private static final String[] JOINT_NAMES = {"over12dB", "over18dB", "over25dB", "over35dB"};
    private static final double[] JOINT_PERCENTS = {90, 95, 99, 100};
    private static final String[] JOINT_PERCENT_NAMES = {"p90", "p95", "p99", "max"};

    private TransientFeatures() {}

    static void write(FeatureFrames o, int from, int to, FeatureWriter w) {
        double seconds = (double) (to - from) / EnvelopeFrames.RATE_HZ;
        EnvelopeFrames e = o.envelopes;
        for (int b = 0; b < e.rise.length; b++) {
            band(o, b, from, to, seconds, w);
        }
        joint(e, from, to, seconds, w);
        for (int a = 0; a < e.rise.length; a++) {
            for (int b = a + 1; b < e.rise.length; b++) {
                w.put(
                        "rise.together." + Bands.ENVELOPE_NAMES[a],
                        Bands.ENVELOPE_NAMES[b],
                        "1",
                        "correlation of the rises of two bands",
                        correlation(e.rise[a], e.rise[b], from, to));
            }
        }
    }

    private static void band(FeatureFrames o, int b, int from, int to, double seconds, FeatureWriter w) {
        String rise = "rise." + Bands.ENVELOPE_NAMES[b];
        Spread s = new Spread(o.envelopes.rise[b], from, to);
        for (int i = 0; i < PERCENTS.length; i++) {
            w.put(rise, PERCENT_NAMES[i], "dB", "rise over the surrounding 82 ms", s.percentile(PERCENTS[i]));
        }
        w.put(rise, "sd", "dB", "deviation of the rise", s.deviation());
        w.put(rise, "kurtosis", "1", "kurtosis of the rise", s.kurtosis());
        double[] highest = Sliding.maximum(java.util.Arrays.copyOfRange(o.envelopes.rise[b], from, to), 11);
        for (int i = 0; i < LIMITS_DB.length; i++) {
            w.put(
                    rise,
                    LIMIT_NAMES[i],
                    "1/s",
                    "local maxima of the rise a second",
                    peaks(o.envelopes.rise[b], from, highest, LIMITS_DB[i]) / seconds);
        }
        w.put(rise, "p95.relative", "dB", "less the recording's own", s.percentile(95) - o.background.riseP95[b]);
        w.put(rise, "p99.relative", "dB", "less the recording's own", s.percentile(99) - o.background.riseP99[b]);
        level(o, b, from, to, w);
    }

    private static void level(FeatureFrames o, int b, int from, int to, FeatureWriter w) {
        String level = "level." + Bands.ENVELOPE_NAMES[b];
        Spread s = new Spread(o.envelopes.level[b], from, to);
        double[] power = new double[to - from];
        for (int i = 0; i < power.length; i++) {
            power[i] = Math.pow(10, o.envelopes.level[b][from + i] / 10);
        }
        Spread p = new Spread(power, 0, power.length);
        double meanLevel = 10 * Math.log10(p.mean());
        double median = s.percentile(50);
        w.put(level, "kurtosis", "1", "kurtosis of the power envelope", p.kurtosis());
        w.put(level, "peakiness", "dB", "level of the mean power over the mean level", meanLevel - s.mean());
        w.put(level, "crest", "dB", "highest level over the median", 10 * Math.log10(p.max()) - median);
        w.put(level, "median.relative", "dB", "less the recording's own", median - o.background.levelMedian[b]);
        w.put(
                level,
                "mean.relative",
                "dB",
                "level of the mean power, less the recording's own median",
                meanLevel - o.background.levelMedian[b]);
    }

    private static int peaks(double[] x, int from, double[] highest, double limit) {
        int n = 0;
        for (int i = 0; i < highest.length; i++) {
            if (highest[i] > limit && x[from + i] >= highest[i]) {
                n++;
            }
        }
        return n;
    }

    /** Rises of all bands but the lowest, added: a crackle is broad, heart sounds are low. */
    private static void joint(EnvelopeFrames e, int from, int to, double seconds, FeatureWriter w) {
        double[] sum = new double[to - from];
        for (int b = 1; b < e.rise.length; b++) {
            for (int i = 0; i < sum.length; i++) {
                sum[i] += e.rise[b][from + i];
            }
        }
        double[] highest = Sliding.maximum(sum, 15);
        for (int i = 0; i < JOINT_LIMITS_DB.length; i++) {
            w.put(
                    "rise.joint",
                    JOINT_NAMES[i],
                    "1/s",
                    "local maxima of the sum of the upper bands' rises a second",
                    peaks(sum, 0, highest, JOINT_LIMITS_DB[i]) / seconds);
        }
        Spread s = new Spread(sum, 0, sum.length);
        for (int i = 0; i < JOINT_PERCENTS.length; i++) {
            w.put(
                    "rise.joint",
                    JOINT_PERCENT_NAMES[i],
                    "dB",
                    "sum of the upper bands' rises",
                    s.percentile(JOINT_PERCENTS[i]));
        }
    }

    private static double correlation(double[] a, double[] b, int from, int to) {
        double n = to - from;
        double sa = 0;
        double sb = 0;
        double aa = 0;
        double bb = 0;
        double ab = 0;
        for (int i = from; i < to; i++) {
            sa += a[i];
            sb += b[i];
            aa += a[i] * a[i];
            bb += b[i] * b[i];
            ab += a[i] * b[i];
        }
        double va = aa - sa * sa / n;
        double vb = bb - sb * sb / n;
        return va < 1e-9 || vb < 1e-9 ? 0 : (ab - sa * sb / n) / Math.sqrt(va * vb);
    }
}
