package lungwort.compare;

import java.util.ArrayList;
import java.util.List;
import lungwort.signal.Statistics;
import org.jspecify.annotations.Nullable;

/**
 * Today's take against this person's earlier ones at the same site.
 *
 * @param measure what
 * @param today today's value, in the measure's unit
 * @param median of the earlier takes
 * @param lowest of the earlier takes
 * @param highest of the earlier takes
 * @param takes number of earlier takes that have the measure
 * @param limit what two takes of the same thing stay within in 95 of 100 pairs; null where none was measured
 */
public record Usual(
        Measure measure,
        double today,
        double median,
        double lowest,
        double highest,
        int takes,
        Repeatability.@Nullable Limit limit) {
    /** Fewer earlier takes are no usual. Common practice. */
    public static final int ENOUGH_TAKES = 3;

    /** True if today lies outside all earlier takes, and further from their median than two takes of the same thing usually differ. */
    public boolean unusual() {
        boolean outside = today < lowest || today > highest;
        return takes >= ENOUGH_TAKES && outside && limit != null && Math.abs(today - median) > limit.difference();
    }

    /**
     * Measure by measure, those that today and an earlier take have and that can be compared.
     *
     * @param earlier the earlier takes at the same site, in any order; those that cannot be judged are passed over for evidence
     * @param sameDevice false if it is known that another device or setting was used for them
     */
    public static List<Usual> of(
            TakeMeasures today, List<TakeMeasures> earlier, boolean sameDevice, Repeatability repeatability) {
        List<Usual> usual = new ArrayList<>();
        for (Measure measure : Measure.values()) {
            double[] values = earlier.stream()
                    .filter(e -> Comparability.of(today, e, sameDevice).comparable(measure))
                    .map(e -> e.value(measure))
                    .filter(java.util.Objects::nonNull)
                    .mapToDouble(Double::doubleValue)
                    .sorted()
                    .toArray();
            Double now = today.value(measure);
            if (now != null && values.length > 0) {
                usual.add(new Usual(
                        measure,
                        now,
                        Statistics.median(values),
                        values[0],
                        values[values.length - 1],
                        values.length,
                        repeatability.limit(measure, Relation.EARLIER_LATER)));
            }
        }
        return List.copyOf(usual);
    }
}
