package lungwort.feature;

import java.util.ArrayList;
import java.util.List;

/**
 * Where feature groups put their values, in a fixed order. The same code path either fills a vector or describes it, so catalogue and vector cannot drift apart.
 */
final class FeatureWriter {
    private final List<FeatureDefinition> definitions;
    private final boolean describing;
    private final float[] values;
    private int at;

    private FeatureWriter(boolean describing, int size) {
        this.describing = describing;
        this.definitions = new ArrayList<>();
        this.values = new float[size];
    }

    static FeatureWriter describing() {
        return new FeatureWriter(true, 0);
    }

    static FeatureWriter filling(int size) {
        return new FeatureWriter(false, size);
    }

    /**
     * Adds one feature.
     *
     * @param group what is measured, for example {@code ridge.highest}
     * @param part which statistic, band or limit of it; may be empty
     * @param unit for example {@code dB}; {@code 1} for pure numbers
     * @param formula in words
     * @param value its value; anything that is not finite becomes 0, so that trees and sums always get a number
     */
    void put(String group, String part, String unit, String formula, double value) {
        if (describing) {
            String name = part.isEmpty() ? group : group + "." + part;
            definitions.add(new FeatureDefinition(name, unit, part.isEmpty() ? formula : formula + " (" + part + ")"));
        } else {
            values[at] = Double.isFinite(value) ? (float) value : 0f;
        }
        at++;
    }

    /** Mean, maximum, standard deviation, and quartile, upper quartile and 95th percentile. */
    void spread(String group, String unit, String formula, Spread s) {
        put(group, "mean", unit, formula, s.mean());
        put(group, "max", unit, formula, s.max());
        put(group, "sd", unit, formula, s.deviation());
        put(group, "p25", unit, formula, s.percentile(25));
        put(group, "p75", unit, formula, s.percentile(75));
        put(group, "p95", unit, formula, s.percentile(95));
    }

    List<FeatureDefinition> definitions() {
        return definitions;
    }

    float[] values() {
        if (at != values.length) {
            throw new IllegalStateException("%d features written, %d in the catalogue".formatted(at, values.length));
        }
        return values;
    }
}
