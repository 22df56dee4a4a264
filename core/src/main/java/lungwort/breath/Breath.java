package lungwort.breath;

import java.util.List;

/**
 * One breath cycle: from the start of one inspiration to the start of the next.
 *
 * @param startSeconds start within the recording, in seconds
 * @param endSeconds end, in seconds, after the start
 * @param phases the phases in order, without overlap, inside [start, end]; may be empty
 * @param confidence that this is one breath, in [0, 1]
 */
public record Breath(double startSeconds, double endSeconds, List<PhaseSpan> phases, double confidence) {
    public Breath {
        if (!(endSeconds > startSeconds) || !(confidence >= 0 && confidence <= 1)) {
            throw new IllegalArgumentException(
                    "breath %s to %s s, confidence %s".formatted(startSeconds, endSeconds, confidence));
        }
        phases = List.copyOf(phases);
    }
}
