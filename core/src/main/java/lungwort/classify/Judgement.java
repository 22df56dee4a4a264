package lungwort.classify;

import java.util.List;

/**
 * What the model says of one recording.
 *
 * @param continuous calibrated probability of a continuous extra sound
 * @param discontinuous calibrated probability of a discontinuous extra sound
 * @param poorQuality calibrated probability that a listener would call it too poor to judge
 * @param heardContinuous true if the probability is high enough to suggest it
 * @param heardDiscontinuous true if the probability is high enough to suggest it
 * @param poor true if the probability of poor quality is so high that nothing is suggested
 * @param cannotTell true if the probabilities say too little, one way or the other
 * @param familiar true if the recording sounds, on the whole, like those learnt from: only then does it say something that nothing was found
 * @param reasons in plain words, the measured facts that moved it most, strongest first
 * @param segments the windows looked at, with their probabilities
 * @param events single extra sounds that it finds
 */
public record Judgement(
        double continuous,
        double discontinuous,
        double poorQuality,
        boolean heardContinuous,
        boolean heardDiscontinuous,
        boolean poor,
        boolean cannotTell,
        boolean familiar,
        List<String> reasons,
        List<JudgedSegment> segments,
        HeardEvents events) {
    public Judgement {
        reasons = List.copyOf(reasons);
        segments = List.copyOf(segments);
    }

    /** The same with reasons. */
    Judgement because(List<String> why) {
        return new Judgement(
                continuous,
                discontinuous,
                poorQuality,
                heardContinuous,
                heardDiscontinuous,
                poor,
                cannotTell,
                familiar,
                why,
                segments,
                events);
    }

    /**
     * One window.
     *
     * @param startSeconds start, in seconds
     * @param endSeconds end, in seconds
     * @param continuous probability of a continuous extra sound in it
     * @param discontinuous probability of a discontinuous one
     */
    public record JudgedSegment(double startSeconds, double endSeconds, double continuous, double discontinuous) {}
}
