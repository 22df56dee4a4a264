package lungwort.breath;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.signal.Autocorrelation;

/**
 * Finds breaths, their phases and the respiratory rate in the sound alone.
 *
 * <p>Many ways of breathing (period, loudness of expiration) are tried; under each, the likeliest sequence of inspiration, turn, expiration and pause is decoded
 * ({@link PhaseFit}). The best one gives the breaths; how far the others agree with it gives the confidence.
 */
public final class BreathTracker {
    /** Slowest rate that is looked for, in breaths a minute. */
    public static final double MIN_RATE = 7.5;

    /** Fastest rate that is looked for, in breaths a minute. */
    public static final double MAX_RATE = 75;

    /** Shortest recording in which breaths are looked for, in seconds. */
    public static final double MIN_SECONDS = 2;

    private static final int PERIODS = 18;
    private static final int STEP_FRAMES = 2;

    /** Inspiration, expiration and what their relation costs: expiration as loud as inspiration is rarer over the chest. */
    private static final double[][] FLOWS = {
        {0.95, 0.1, 0}, {0.95, 0.35, 0}, {0.95, 0.6, 0}, {0.95, 0.85, -0.15}, {0.76, 1.1, -0.3}
    };

    /** From this flow on it can be told whether expiration is drawn out. */
    private static final double HEARD_EXPIRATION = 0.5;

    /** Before anything is heard, periods near {@value} s are likelier. */
    private static final double USUAL_PERIOD_SECONDS = 2.8;

    private static final double USUAL_PERIOD_SIGMA = 0.5;

    /** What each breath of an even rhythm adds to its period's score, and after how many breaths no more is added. */
    private static final double RHYTHM_WEIGHT = 0.1;

    private static final double RHYTHM_BREATHS = 8;

    private BreathTracker() {}

    /** The breaths of a recording; {@link Breathing#NONE} where none can be told. */
    public static Breathing track(Recording recording) {
        return track(BandLevelMeter.of(recording));
    }

    /** As {@link #track(Recording)}, from band levels. */
    public static Breathing track(BandLevels levels) {
        BandFlow flow = levels.durationSeconds() < MIN_SECONDS
                ? null
                : BandFlow.of(levels).every(STEP_FRAMES);
        if (flow == null || liveFrames(flow) < MIN_SECONDS / (STEP_FRAMES * levels.hopSeconds())) {
            return Breathing.NONE;
        }
        double frameSeconds = STEP_FRAMES * levels.hopSeconds();
        List<Explanation> explanations = explain(flow, frameSeconds);
        return PhaseReading.read(explanations, flow, levels.firstSeconds(), frameSeconds, levels.durationSeconds());
    }

    private static int liveFrames(BandFlow flow) {
        int n = 0;
        for (boolean live : flow.live()) {
            n += live ? 1 : 0;
        }
        return n;
    }

    /** Every hypothesis with its decoded path, best first. */
    private static List<Explanation> explain(BandFlow flow, double frameSeconds) {
        List<Explanation> all = new ArrayList<>();
        double[] rhythm = rhythm(flow, frameSeconds);
        for (int i = 0; i < PERIODS; i++) {
            double period = 60 / (MAX_RATE * Math.pow(MIN_RATE / MAX_RATE, (double) i / (PERIODS - 1)));
            double prior = priorLog(period) + rhythmLog(rhythm, period, frameSeconds, flow.flow().length);
            for (boolean longExpiration : new boolean[] {false, true}) {
                var timing = new PhaseHypothesis(period, 0, 0, longExpiration, prior);
                PhaseFit fit = new PhaseFit(flow, frameSeconds, timing.decoder(frameSeconds, flow.flow().length));
                for (double[] flows : FLOWS) {
                    if (!longExpiration || flows[1] >= HEARD_EXPIRATION) {
                        all.add(explanation(fit, timing.with(flows)));
                    }
                }
            }
        }
        all.sort(Comparator.comparingDouble(Explanation::score).reversed());
        return all;
    }

    private static Explanation explanation(PhaseFit fit, PhaseHypothesis hypothesis) {
        SemiMarkov.Path path = fit.fit(hypothesis);
        return new Explanation(hypothesis, path, path.logProbability() + hypothesis.priorLog());
    }

    private static double priorLog(double period) {
        double z = Math.log(period / USUAL_PERIOD_SECONDS) / USUAL_PERIOD_SIGMA;
        return -z * z;
    }

    private static double[] rhythm(BandFlow flow, double frameSeconds) {
        double[] total = flow.total();
        int longest = Math.min(total.length - 1, (int) (1.1 * 60 / MIN_RATE / frameSeconds));
        double[] r = Autocorrelation.normalised(total, longest);
        for (int k = 1; k < r.length; k++) {
            r[k] *= Math.min(4, (double) total.length / (total.length - k));
        }
        return r;
    }

    private static double rhythmLog(double[] rhythm, double period, double frameSeconds, int frames) {
        int lag = (int) Math.round(period / frameSeconds);
        int around = (int) (0.08 * lag) + 1;
        double height = 0;
        for (int k = Math.max(1, lag - around); k <= Math.min(rhythm.length - 1, lag + around); k++) {
            height = Math.max(height, rhythm[k]);
        }
        return RHYTHM_WEIGHT * height * Math.min(RHYTHM_BREATHS, frames * frameSeconds / period);
    }

    /** A hypothesis, what it makes of the recording, and how good that is. */
    record Explanation(PhaseHypothesis hypothesis, SemiMarkov.Path path, double score) {}
}
