package lungwort.classify;

import org.jspecify.annotations.Nullable;

/**
 * What the models say of one window: the one that learnt from windows of fixed length, the one that learnt from marked segments, whose finer classes help although its segments began and ended
 * with a sound, and the one that looks at nothing but bursts.
 *
 * @param asWindow shape {@code [5]}, in the order of {@link RecordingClass}
 * @param asSegment shape {@code [7]}, in the order of {@link SegmentClass}
 * @param bursts what is short and stands out says of a discontinuous extra sound; null where the recipe trains no such model
 */
@SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
public record WindowAnswer(
        double[] asWindow, double[] asSegment, @Nullable Bursts bursts) {
    /**
     * Probabilities of a discontinuous extra sound by bursts, if the window can be judged at all.
     *
     * @param alone from the bursts of the window
     * @param amongBreaths the same, where also counts how far the breaths of its recording agree about where bursts stand
     */
    public record Bursts(double alone, double amongBreaths) {}

    /**
     * Share of the bursts' model in the log odds of a discontinuous sound. What else a window sounds like tells it a little better where the device is known and misleads where it is not: area
     * under the ROC curve on SPRSound's windows, in patient folds, 0.889, 0.887, 0.881 and 0.868 for shares of 0, 0.5, 0.75 and 1; on ICBHI's Meditron cycles 0.58, 0.75, 0.81 and 0.83 (scratch
     * runs of the linear learners, once).
     */
    static final double BURSTS_SHARE = 0.75;

    private static final double LEAST = 1e-9;

    /** The same where the agreement of its recording's breaths counts by another scale. */
    WindowAnswer among(double agreement, BurstsScale scale) {
        return bursts == null
                ? this
                : new WindowAnswer(asWindow, asSegment, new Bursts(bursts.alone, scale.apply(bursts.alone, agreement)));
    }

    /** Probability of a continuous extra sound in the window, if it can be judged at all. */
    public double continuous() {
        return RecordingClass.ifJudged(RecordingClass.continuous(asWindow), asWindow);
    }

    /** Probability of a discontinuous extra sound in the window, if it can be judged at all. */
    public double discontinuous() {
        double whole = RecordingClass.ifJudged(RecordingClass.discontinuous(asWindow), asWindow);
        if (bursts == null) {
            return whole;
        }
        double logit = BURSTS_SHARE * logit(bursts.amongBreaths) + (1 - BURSTS_SHARE) * logit(whole);
        return Softmax.logistic(logit);
    }

    /** Hardly held: through an unfamiliar device all probabilities are small, and still tell one window from another. */
    static double logit(double p) {
        return ContextFeatures.logit(p, LEAST);
    }
}
