package lungwort.classify;

/**
 * How a {@link SoundModel} is trained.
 *
 * @param seed of every draw
 * @param folds patient folds inside the training set from which the later stages, calibration and thresholds learn, at least 2
 * @param segment features and learners for single segments
 * @param context learners for a segment among the others of its recording
 * @param recording learners for the whole recording
 */
public record ModelSettings(
        long seed, int folds, BlendSettings segment, BlendSettings context, BlendSettings recording) {
    public ModelSettings {
        if (folds < 2 || folds > 50) {
            throw new lungwort.BadInput("The recipe asks for %d inner folds; use 2 to 50.".formatted(folds));
        }
    }
}
