package lungwort.score;

/**
 * An event in time, annotated or found.
 *
 * @param recording id of its recording
 * @param startSeconds onset
 * @param endSeconds offset, after the onset
 * @param kind its class; only events of one class can match
 */
public record EventSpan(String recording, double startSeconds, double endSeconds, String kind) {
    public EventSpan {
        if (!(endSeconds > startSeconds)) {
            throw new IllegalArgumentException("event from %s to %s s".formatted(startSeconds, endSeconds));
        }
    }

    /** Length in seconds. */
    public double durationSeconds() {
        return endSeconds - startSeconds;
    }
}
