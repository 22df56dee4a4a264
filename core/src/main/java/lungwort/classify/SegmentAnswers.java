package lungwort.classify;

/**
 * What is known of the marked segments of one recording before they are seen beside one another.
 *
 * @param alone class probabilities of each by itself, in order of time: shape {@code [segments][7]}, in the order of {@link SegmentClass}
 * @param facts {@link SegmentFacts} of each; no row where the model has no net to see them by
 */
@SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
public record SegmentAnswers(double[][] alone, float[][] facts) {
    public SegmentAnswers {
        if (facts.length != 0 && facts.length != alone.length) {
            throw new IllegalArgumentException("%d segments, facts of %d".formatted(alone.length, facts.length));
        }
    }
}
