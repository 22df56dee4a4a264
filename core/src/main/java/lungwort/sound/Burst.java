package lungwort.sound;

/**
 * A short event that stands out from the sound around it, with what tells whether it is a crackle. Far weaker ones are listed than {@link CrackleFinder} names.
 *
 * @param seconds start of the initial deflection within the recording
 * @param score log-likelihood ratio of "louder" against "the same" ({@link TransientMap}), at least {@link SoundSearch#LEAST_SCORE}
 * @param highShare share of its energy above 1.6 kHz, in [0, 1]
 * @param initialMs initial deflection width, in ms
 * @param twoCycleMs two-cycle duration, in ms
 * @param largestMs width of the largest deflection, in ms
 * @param prominenceDb largest deflection over the noise just before, in dB, at most 100
 * @param fit best correlation with a mathematical crackle, in [0, 1]
 * @param ringing level 4 to 29 ms after its second cycle over its largest deflection, at least 0
 * @param crackle whether {@link CrackleFinder} calls it a crackle (with CORSA's limits)
 */
public record Burst(
        double seconds,
        double score,
        double highShare,
        double initialMs,
        double twoCycleMs,
        double largestMs,
        double prominenceDb,
        double fit,
        double ringing,
        boolean crackle) {
    /** Whether its shape could be a crackle's, however weak it is: it fits, is not as broad in band as a click, and does not ring on. */
    public boolean shapedLikeCrackle() {
        return Transient.shaped(fit, highShare, ringing);
    }
}
