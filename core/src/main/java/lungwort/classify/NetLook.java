package lungwort.classify;

/**
 * What nets over mel levels saw in a recording.
 *
 * @param logits of the whole: a continuous extra sound, a discontinuous one, poor quality; shape {@code [3]}
 * @param seconds where most speaks for each, shape {@code [3]}
 * @param frames logits moment by moment, of a continuous sound and of a discontinuous one, at the frames of the image ({@link lungwort.feature.MelImage}): shape {@code [2][frames]}
 */
@SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
public record NetLook(double[] logits, double[] seconds, float[][] frames) {}
