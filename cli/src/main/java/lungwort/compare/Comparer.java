package lungwort.compare;

import java.util.ArrayList;
import java.util.List;

/** Puts two takes beside one another. */
public final class Comparer {
    private final Repeatability repeatability;

    /** @param repeatability what two takes of the same thing differ by */
    public Comparer(Repeatability repeatability) {
        this.repeatability = repeatability;
    }

    /** With the shipped repeatability. */
    public static Comparer standard() {
        return new Comparer(Repeatability.shipped());
    }

    /**
     * @param first the first take
     * @param second the second take
     * @param relation how they stand to one another
     * @param sameDevice false if it is known that another device or setting was used; true where it is not known to be so
     */
    public Comparison compare(TakeMeasures first, TakeMeasures second, Relation relation, boolean sameDevice) {
        Comparability comparability = Comparability.of(first, second, sameDevice);
        List<Difference> differences = new ArrayList<>();
        for (Measure measure : Measure.values()) {
            Double a = first.value(measure);
            Double b = second.value(measure);
            if (a != null && b != null && comparability.comparable(measure)) {
                differences.add(new Difference(measure, a, b, repeatability.limit(measure, relation)));
            }
        }
        List<String> findings = new Findings(relation, first, second, differences).list();
        return new Comparison(relation, first, second, differences, comparability.sentences(), findings);
    }
}
