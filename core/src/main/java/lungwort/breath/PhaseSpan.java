package lungwort.breath;

/**
 * A stretch of one phase.
 *
 * @param startSeconds start within the recording, in seconds
 * @param endSeconds end, in seconds, after the start
 * @param phase which phase
 * @param confidence in [0, 1]
 */
public record PhaseSpan(double startSeconds, double endSeconds, BreathPhase phase, double confidence) {
    public PhaseSpan {
        if (!(endSeconds > startSeconds) || !(confidence >= 0 && confidence <= 1)) {
            throw new IllegalArgumentException(
                    "phase span %s to %s s, confidence %s".formatted(startSeconds, endSeconds, confidence));
        }
    }
}
