package lungwort.feature;

import java.util.Arrays;

/** What tells of continuous sounds: how prominent ridges are, how long they hold, at which frequency, and how they compare with the rest of the recording. */
final class RidgeFeatures {
    private static final double[] HELD_200MS_LIMITS_DB = {5, 8, 11, 14};
    private static final double[] HELD_400MS_LIMITS_DB = {4, 6, 8, 11};
    private static final String[] HELD_200MS_NAMES = {"over5dB", "over8dB", "over11dB", "over14dB"};
    private static final String[] HELD_400MS_NAMES = {"over4dB", "over6dB", "over8dB", "over11dB"};
    private static final String RELATIVE = "the same, less the recording's own";

    private RidgeFeatures() {}

    static void write(FeatureFrames o, int from, int to, FeatureWriter w) {
        Spread[] spread = new Spread[RidgeFrames.MEASURES.length];
        for (int m = 0; m < spread.length; m++) {
            spread[m] = new Spread(o.ridges.measure[m], from, to);
            w.spread(RidgeFrames.MEASURES[m], RidgeFrames.unit(m), "over the frames of the segment", spread[m]);
        }
        frequencies(o, from, to, w);
        held(spread, w);
        for (int m = 0; m < spread.length; m++) {
            String name = RidgeFrames.MEASURES[m];
            w.put(
                    name,
                    "mean.relative",
                    RidgeFrames.unit(m),
                    RELATIVE + " median",
                    spread[m].mean() - o.background.ridgeMedian[m]);
            w.put(
                    name,
                    "max.relative",
                    RidgeFrames.unit(m),
                    RELATIVE + " 95th percentile",
                    spread[m].max() - o.background.ridgeP95[m]);
        }
        averageSpectrum(o, from, to, w);
    }

    private static void frequencies(FeatureFrames o, int from, int to, FeatureWriter w) {
        for (int p = 0; p < RidgeFrames.PEAK_MEASURES; p++) {
            int best = from;
            for (int f = from; f < to; f++) {
                if (o.ridges.measure[p][f] > o.ridges.measure[p][best]) {
                    best = f;
                }
            }
            w.put(RidgeFrames.MEASURES[p], "hz", "Hz", "frequency at its maximum", o.ridges.peakHz[p][best]);
        }
        double weights = 1e-9;
        double sum = 0;
        double squares = 0;
        for (int f = from; f < to; f++) {
            double weight = o.ridges.measure[2][f] * o.ridges.measure[2][f];
            weights += weight;
            sum += weight * o.ridges.peakHz[2][f];
            squares += weight * o.ridges.peakHz[2][f] * o.ridges.peakHz[2][f];
        }
        double mean = sum / weights;
        w.put("ridge.held200ms", "meanHz", "Hz", "mean frequency weighted by squared prominence", mean);
        w.put(
                "ridge.held200ms",
                "sdHz",
                "Hz",
                "deviation of that frequency",
                Math.sqrt(Math.max(0, squares / weights - mean * mean)));
    }

    private static void held(Spread[] spread, FeatureWriter w) {
        for (int i = 0; i < HELD_200MS_LIMITS_DB.length; i++) {
            w.put(
                    "ridge.held200ms",
                    HELD_200MS_NAMES[i],
                    "1",
                    "share of frames",
                    spread[2].shareAbove(HELD_200MS_LIMITS_DB[i]));
            w.put(
                    "ridge.held400ms",
                    HELD_400MS_NAMES[i],
                    "1",
                    "share of frames",
                    spread[3].shareAbove(HELD_400MS_LIMITS_DB[i]));
        }
    }

    /** The highest peak of the segment's average mel spectrum over its smoothed shape. */
    private static void averageSpectrum(FeatureFrames o, int from, int to, FeatureWriter w) {
        double[] mean = new double[FeatureFrames.MEL_BANDS];
        for (int f = from; f < to; f++) {
            for (int b = 0; b < mean.length; b++) {
                mean[b] += o.mel[f][b] / (to - from);
            }
        }
        double[] smooth = Sliding.median(mean, 9);
        double[] over = new double[mean.length];
        Arrays.setAll(over, b -> mean[b] - smooth[b]);
        int best = 0;
        for (int b = 1; b < over.length; b++) {
            best = over[b] > over[best] ? b : best;
        }
        w.put("average.peak", "", "dB", "highest mel band of the average spectrum over its running median", over[best]);
        w.put("average.peakBand", "", "1", "number of that band, of 40 from 60 to 1980 Hz", best);
    }
}
