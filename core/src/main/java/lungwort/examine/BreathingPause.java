package lungwort.examine;

import java.util.Locale;

/**
 * A stretch in which the chest piece lay on the chest and no breath was found: between two breaths, or between a breath and the recording's start or end. It is a question, not a finding: the person may
 * have held the breath, or breathed too softly to be heard; whoever watched the chest knows.
 *
 * @param startSeconds end of the last breath sound before it, within the recording; 0 where the recording's start cuts it
 * @param endSeconds start of the next breath sound, at least {@value BreathingPauses#MIN_SECONDS} s later; the recording's length where its end cuts it
 * @param cut what cuts it: then it lasted at least so long, and nobody can say how long
 */
public record BreathingPause(double startSeconds, double endSeconds, Cut cut) {
    /** Asked beside every pause. */
    public static final String QUESTION =
            "Was the breath held, too soft to be heard, or the chest piece lifted? If the breathing stopped by itself, that is a danger sign, in a baby above all: get emergency help.";

    /** What cuts a pause. */
    public enum Cut {
        /** Nothing: breath sounds stand on both sides. */
        NONE,
        /** The recording begins within it. */
        START,
        /** The recording ends within it. */
        END
    }

    public BreathingPause {
        if (!(startSeconds >= 0 && endSeconds > startSeconds)) {
            throw new IllegalArgumentException("pause from %s to %s s".formatted(startSeconds, endSeconds));
        }
    }

    /** Between two breaths. */
    public BreathingPause(double startSeconds, double endSeconds) {
        this(startSeconds, endSeconds, Cut.NONE);
    }

    /** Where and how long, in plain words. */
    public String words() {
        return switch (cut) {
            case NONE ->
                String.format(
                        Locale.ROOT,
                        "From %.1f to %.1f s, for %s, no breath was found between two breaths.",
                        startSeconds,
                        endSeconds,
                        lengthWords());
            case START ->
                String.format(
                        Locale.ROOT,
                        "From the start of the recording to %.1f s, for %s, no breath was found.",
                        endSeconds,
                        lengthWords());
            case END ->
                String.format(
                        Locale.ROOT,
                        "From %.1f s to the end of the recording, for %s, no breath was found.",
                        startSeconds,
                        lengthWords());
        };
    }

    /** How long, in plain words: "about 9 s", or "at least 9 s" where it is cut. */
    public String lengthWords() {
        return (cut == Cut.NONE ? "about " : "") + shortWords();
    }

    /** The same where room is short: "9 s", or "at least 9 s". */
    public String shortWords() {
        return cut == Cut.NONE
                ? String.format(Locale.ROOT, "%.0f s", seconds())
                : String.format(Locale.ROOT, "at least %.0f s", Math.floor(seconds()));
    }

    /** Length in seconds, within the recording. */
    public double seconds() {
        return endSeconds - startSeconds;
    }
}
