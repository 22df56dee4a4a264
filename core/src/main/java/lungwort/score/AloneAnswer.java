package lungwort.score;

import lungwort.dataset.RecordingLabel;
import lungwort.examine.Suggestion;

/**
 * What a person at home is told of one recording alone, by the whole examination.
 *
 * @param continuous calibrated probability of a continuous extra sound
 * @param discontinuous calibrated probability of a discontinuous extra sound
 * @param poorQuality calibrated probability that a listener would call it too poor to judge
 * @param suggestion what is suggested
 * @param refused true if it was called too poor to judge
 */
public record AloneAnswer(
        double continuous, double discontinuous, double poorQuality, Suggestion suggestion, boolean refused) {
    private static final double EVEN = 0.5;

    /** What would have to be answered if "cannot tell" were no answer: each sound from a probability of a half. */
    RecordingLabel forced() {
        return RecordingLabel.of(continuous >= EVEN, discontinuous >= EVEN);
    }

    /** How far the less certain of both probabilities is from a half. */
    double confidence() {
        return Math.min(Math.abs(continuous - EVEN), Math.abs(discontinuous - EVEN));
    }

    boolean answered() {
        return suggestion.tells();
    }

    boolean cannotTell() {
        return suggestion == Suggestion.CANNOT_TELL;
    }

    /** True if it says no more than that nothing stands out, in a recording unlike nearly all that was learnt from. */
    boolean noneStandsOut() {
        return suggestion == Suggestion.NONE_STANDS_OUT;
    }

    boolean suggests() {
        return suggestion.namesSound();
    }

    boolean noneHeard() {
        return suggestion == Suggestion.NONE_HEARD;
    }

    /** True if a continuous sound is suggested. */
    boolean suggestsContinuous() {
        return suggestion.continuous();
    }

    /** True if a discontinuous sound is suggested. */
    boolean suggestsDiscontinuous() {
        return suggestion.discontinuous();
    }

    /** True if it names exactly the sounds that listeners heard. */
    boolean right(RecordingLabel truth) {
        return answered()
                && suggestsContinuous() == truth.continuous()
                && suggestsDiscontinuous() == truth.discontinuous();
    }
}
