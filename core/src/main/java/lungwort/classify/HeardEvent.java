package lungwort.classify;

/**
 * A stretch of a recording in which the model hears an extra sound, found without help.
 *
 * @param startSeconds its start, in seconds
 * @param endSeconds its end, in seconds, after the start
 * @param continuous true for a continuous sound, false for a discontinuous one
 * @param probability that a listener marked a sound of this kind there, whose time and this one share at least half of what either covers; in [0, 1]
 */
public record HeardEvent(double startSeconds, double endSeconds, boolean continuous, double probability) {
    public HeardEvent {
        if (!(startSeconds >= 0 && endSeconds > startSeconds) || !(probability >= 0 && probability <= 1)) {
            throw new IllegalArgumentException(
                    "event from %s to %s s, probability %s".formatted(startSeconds, endSeconds, probability));
        }
    }

    /** Length in seconds. */
    public double durationSeconds() {
        return endSeconds - startSeconds;
    }
}
