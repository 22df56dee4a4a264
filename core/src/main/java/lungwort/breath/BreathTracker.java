package lungwort.breath;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.audio.Recording;

/**
 * Finds breaths, their phases and the respiratory rate in the sound alone.
 *
 * <p>Many ways of breathing (period, loudness and colour of expiration) are tried; under each, the likeliest sequence of inspiration, turn, expiration and pause is
 * decoded ({@link SemiMarkov}). The best one gives the breaths; how far the others agree with it gives the confidence.
 */
public final class BreathTracker {
    /** Slowest rate that is looked for, in breaths a minute. */
    public static final double MIN_RATE = 7;

    /** Fastest rate that is looked for, in breaths a minute. */
    public static final double MAX_RATE = 78;

    /** Shortest recording in which breaths are looked for, in seconds. */
    public static final double MIN_SECONDS = 2;

    private static final int PERIODS = 22;
    private static final double[] EXPIRATION_FLOWS = {0.1, 0.35, 0.6, 0.9};
    private static final double[] COLOURS = {-0.3, 0, 0.3};
    private static final int STEP_FRAMES = 2;
    private static final double MAX_STAY_SECONDS = 6;

    private BreathTracker() {}

    /** The breaths of a recording; {@link Breathing#NONE} where none can be told. */
    public static Breathing track(Recording recording) {
        return track(BandLevelMeter.of(recording));
    }

    /** As {@link #track(Recording)}, from band levels. */
    public static Breathing track(BandLevels levels) {
        if (levels.durationSeconds() < MIN_SECONDS) {
            return Breathing.NONE;
        }
        FlowCurve curve = FlowCurve.of(levels);
        double frameSeconds = STEP_FRAMES * levels.hopSeconds();
        double[] flow = Smoothing.every(curve.flow(), STEP_FRAMES);
        double[] colour = Smoothing.every(curve.colour(), STEP_FRAMES);
        List<Explanation> explanations = explain(flow, colour, frameSeconds);
        return PhaseReading.read(explanations, levels.firstSeconds(), frameSeconds, levels.durationSeconds());
    }

    /** Every hypothesis with its decoded path, best first. */
    private static List<Explanation> explain(double[] flow, double[] colour, double frameSeconds) {
        List<Explanation> all = new ArrayList<>();
        int maxStay = Math.min(flow.length, (int) (MAX_STAY_SECONDS / frameSeconds));
        double[][] transitions = PhaseHypothesis.transitions();
        for (int i = 0; i < PERIODS; i++) {
            double period = 60 / (MAX_RATE * Math.pow(MIN_RATE / MAX_RATE, (double) i / (PERIODS - 1)));
            SemiMarkov decoder =
                    new SemiMarkov(transitions, new PhaseHypothesis(period, 0, 0).lengths(maxStay, frameSeconds));
            for (double expiration : EXPIRATION_FLOWS) {
                for (double tint : COLOURS) {
                    PhaseHypothesis hypothesis = new PhaseHypothesis(period, expiration, tint);
                    SemiMarkov.Path path = decoder.decode(hypothesis.frames(flow, colour));
                    all.add(new Explanation(hypothesis, path, path.logProbability() + hypothesis.priorLog()));
                }
            }
        }
        all.sort(Comparator.comparingDouble(Explanation::score).reversed());
        return all;
    }

    /** A hypothesis, what it makes of the recording, and how good that is. */
    record Explanation(PhaseHypothesis hypothesis, SemiMarkov.Path path, double score) {}
}
