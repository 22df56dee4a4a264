package lungwort.classify;

/**
 * Where the calibrated probabilities of one recording become a suggestion, "none heard" or "cannot tell". {@link LimitSearch} chooses them with the model.
 *
 * @param heardFrom a sound is suggested from this probability
 * @param unsureFrom from this probability up to {@code heardFrom} a sound is neither suggested nor said not to be heard: cannot tell
 * @param poorFrom from this probability of poor quality nothing is suggested: cannot tell
 */
public record Limits(double heardFrom, double unsureFrom, double poorFrom) {
    /** Of models whose file names none [C]. */
    public static final Limits USUAL = new Limits(0.5, 0.35, 0.5);

    public Limits {
        boolean shares = heardFrom >= 0 && heardFrom <= 1 && poorFrom >= 0 && poorFrom <= 1 && unsureFrom >= 0;
        if (!shares || unsureFrom > heardFrom) {
            throw new IllegalArgumentException(
                    "heard from %s, unsure from %s, poor from %s".formatted(heardFrom, unsureFrom, poorFrom));
        }
    }

    /** True if a sound of this probability is suggested. */
    public boolean heard(double probability) {
        return probability >= heardFrom;
    }

    /** True if the recording is called too poor to judge. */
    public boolean poor(SoundModel.Calibrated p) {
        return p.poorQuality() >= poorFrom;
    }

    /** True if the probabilities of sounds say too little, one way or the other. */
    public boolean unsure(SoundModel.Calibrated p) {
        double likelier = Math.max(p.continuous(), p.discontinuous());
        return !heard(likelier) && likelier >= unsureFrom;
    }
}
