package lungwort.quality;

/**
 * The numbers behind a {@link Quality}: also features of a recording in their own right.
 *
 * @param durationSeconds length, in seconds
 * @param peak largest magnitude, 1 is full scale
 * @param levelDbfs median level of the frames, in dB re full scale; the lowest is {@value QualityMeter#FLOOR_DBFS}
 * @param contrastDb 90th less 10th percentile of the level of the frames, in dB: how far the breath stands over what lies between breaths
 * @param clippedShare share of samples that lie in flat runs at the extremes, in [0, 1]
 */
public record QualityMeasures(
        double durationSeconds, double peak, double levelDbfs, double contrastDb, double clippedShare) {}
