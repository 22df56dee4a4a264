package lungwort.compare;

import org.jspecify.annotations.Nullable;

/**
 * One measure in two takes.
 *
 * @param measure what
 * @param first in the first take, in the measure's unit
 * @param second in the second take
 * @param limit what two takes of the same thing stay within in 95 of 100 pairs; null where none was measured
 */
public record Difference(Measure measure, double first, double second, Repeatability.@Nullable Limit limit) {
    /** Second less first, in the measure's unit. */
    public double difference() {
        return second - first;
    }

    /** True if the difference is larger than two takes of the same thing usually show; false where no limit is known. */
    public boolean exceeds() {
        return limit != null && Math.abs(difference()) > limit.difference();
    }
}
