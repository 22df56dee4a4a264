package lungwort.classify;

/**
 * How the net over mel levels ({@link lungwort.feature.MelImage}) is trained. Its logits are {@code net.continuous}, {@code net.discontinuous} and
 * {@code net.poorQuality} among the features of a recipe's recording part.
 *
 * @param epochs how often it sees every recording, 1 to 200
 * @param learningRate highest step, above 0 and below 1
 */
public record NetSettings(int epochs, double learningRate) {
    /** @throws lungwort.BadInput if a setting is out of range */
    public NetSettings {
        if (epochs < 1 || epochs > 200) {
            throw lungwort.BadInput.of("The recipe asks for %d epochs of the net; use 1 to 200.", epochs);
        }
        if (!(learningRate > 0 && learningRate < 1)) {
            throw lungwort.BadInput.of(
                    "The recipe asks for a learning rate of %s of the net; use one above 0 and below 1.", learningRate);
        }
    }
}
