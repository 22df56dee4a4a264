package lungwort.classify;

import org.jspecify.annotations.Nullable;

/**
 * How single sounds are learnt.
 *
 * @param sounds facts ({@code EventFacts}, and with edges {@code EventEdgeFacts}) and learners that tell whether a stretch is a marked sound
 * @param edges boosted trees that put a stretch's start and end right; null to leave them where they were found
 */
public record EventSettings(BlendSettings sounds, @Nullable LearnerSettings edges) {
    public EventSettings {
        if (edges != null && !edges.kind().equals(BoostedTrees.KIND)) {
            throw lungwort.BadInput.of(
                    "The recipe's 'edges' are moved by %s only, not by a %s.", BoostedTrees.KIND, edges.kind());
        }
    }
}
