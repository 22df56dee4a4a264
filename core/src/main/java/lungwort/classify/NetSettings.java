package lungwort.classify;

/**
 * How the net over mel levels ({@link lungwort.feature.MelImage}) is trained. Its logits are {@code net.continuous}, {@code net.discontinuous} and
 * {@code net.poorQuality} among the features of a recipe's recording part.
 *
 * @param nets how many are trained from different beginnings, 1 to 16; the mean of their logits counts
 * @param epochs how often it sees every recording, 1 to 200
 * @param learningRate highest step, above 0 and below 1
 */
public record NetSettings(int nets, int epochs, double learningRate) {
    /** @throws lungwort.BadInput if a setting is out of range */
    public NetSettings {
        if (nets < 1 || nets > 16) {
            throw lungwort.BadInput.of("The recipe asks for %d nets over mel levels; use 1 to 16.", nets);
        }
        if (epochs < 1 || epochs > 200) {
            throw lungwort.BadInput.of("The recipe asks for %d epochs of the net; use 1 to 200.", epochs);
        }
        if (!(learningRate > 0 && learningRate < 1)) {
            throw lungwort.BadInput.of(
                    "The recipe asks for a learning rate of %s of the net; use one above 0 and below 1.", learningRate);
        }
    }
}
