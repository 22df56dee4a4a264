package lungwort.feature;

/**
 * A stretch of a recording.
 *
 * @param startSeconds start, in seconds
 * @param endSeconds end, in seconds, after the start
 */
public record TimeSpan(double startSeconds, double endSeconds) {
    public TimeSpan {
        if (!(endSeconds > startSeconds)) {
            throw new IllegalArgumentException("span from %s to %s s".formatted(startSeconds, endSeconds));
        }
    }
}
