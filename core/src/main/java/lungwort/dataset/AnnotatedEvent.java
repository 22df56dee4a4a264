package lungwort.dataset;

/**
 * One event that an annotator marked: in SPRSound a breath or part of one, in ICBHI a whole breath cycle.
 *
 * @param startSeconds start within the recording, in seconds, at least 0
 * @param endSeconds end, in seconds, after the start
 * @param label what the annotator called it
 */
public record AnnotatedEvent(double startSeconds, double endSeconds, EventLabel label) {
    public AnnotatedEvent {
        if (!(startSeconds >= 0) || !(endSeconds > startSeconds) || Double.isInfinite(endSeconds)) {
            throw new IllegalArgumentException("event from %s to %s s".formatted(startSeconds, endSeconds));
        }
    }

    /** Length in seconds. */
    public double durationSeconds() {
        return endSeconds - startSeconds;
    }
}
