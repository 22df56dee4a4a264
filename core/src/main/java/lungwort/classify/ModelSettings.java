package lungwort.classify;

import org.jspecify.annotations.Nullable;

/**
 * How a {@link SoundModel} is trained.
 *
 * @param seed of every draw
 * @param folds patient folds inside the training set from which the later stages, calibration and thresholds learn, at least 2
 * @param segment features and learners for single marked segments
 * @param context learners for a segment among the others; with a net also by {@link SegmentFacts}, those that the features name
 * @param window features and learners for windows of fixed length
 * @param bursts features and learners that tell windows with discontinuous sounds by their bursts; null to train none
 * @param net the net over mel levels, whose logits the recording's learners see too; null to train none
 * @param recording features and learners for the whole recording
 * @param events how single sounds are told in a recording by what the net says of each moment and by what was measured; null to train none. They need the net
 * @param takes learners for a recording among the person's others
 */
public record ModelSettings(
        long seed,
        int folds,
        BlendSettings segment,
        BlendSettings context,
        BlendSettings window,
        @Nullable BlendSettings bursts,
        @Nullable NetSettings net,
        BlendSettings recording,
        @Nullable EventSettings events,
        BlendSettings takes) {
    public ModelSettings {
        if (folds < 2 || folds > 50) {
            throw lungwort.BadInput.of("The recipe asks for %d inner folds; use 2 to 50.", folds);
        }
        if (events != null && net == null) {
            throw new lungwort.BadInput(
                    "The recipe's part 'events' finds sounds by its net and has none; give 'net', or leave 'events' out.");
        }
    }
}
