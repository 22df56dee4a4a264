package lungwort.examine;

import java.util.Locale;

/**
 * A stretch between two breaths in which the chest piece lay on the chest and no breath was found. It is a question, not a finding: the person may have held the breath, or breathed too softly to be
 * heard; whoever watched the chest knows.
 *
 * @param startSeconds end of the last breath sound before it, within the recording
 * @param endSeconds start of the next breath sound, at least {@value BreathingPauses#MIN_SECONDS} s later
 */
public record BreathingPause(double startSeconds, double endSeconds) {
    /** Asked beside every pause. */
    public static final String QUESTION =
            "Was the breath held, too soft to be heard, or the chest piece lifted? If the breathing stopped by itself, that is a danger sign, in a baby above all: get emergency help.";

    public BreathingPause {
        if (!(startSeconds >= 0 && endSeconds > startSeconds)) {
            throw new IllegalArgumentException("pause from %s to %s s".formatted(startSeconds, endSeconds));
        }
    }

    /** Where and how long, in plain words. */
    public String words() {
        return String.format(
                Locale.ROOT,
                "From %.1f to %.1f s, for about %.0f s, no breath was found between two breaths.",
                startSeconds,
                endSeconds,
                seconds());
    }

    /** Length in seconds. */
    public double seconds() {
        return endSeconds - startSeconds;
    }
}
