package lungwort.feature;

/**
 * One feature of the catalogue.
 *
 * @param name unique, dotted, from the general to the special
 * @param unit for example {@code dB}, {@code Hz}, {@code 1/s}; {@code 1} for pure numbers
 * @param formula in words
 */
public record FeatureDefinition(String name, String unit, String formula) {}
