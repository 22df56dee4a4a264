package lungwort.round;

import java.util.Locale;
import lungwort.compare.Measure;
import lungwort.compare.Relation;
import lungwort.compare.Repeatability;
import lungwort.diary.Trend;
import org.jspecify.annotations.Nullable;

/** How far numbers differ that mean the same, so that nobody takes it for a change. */
public final class Noise {
    private static final Repeatability SHIPPED = Repeatability.shipped();

    private Noise() {}

    /** How far two takes of the same thing differ, in the unit of the measure; null where it was not measured. A rate that was counted is another thing than one heard in two recordings. */
    public static @Nullable Double ofTwoTakes(Trend.Measure measure) {
        return switch (measure) {
            case WHEEZE_SHARE -> difference(Measure.WHEEZE_SHARE, Relation.EARLIER_LATER);
            case CRACKLES_PER_BREATH -> difference(Measure.CRACKLES_PER_BREATH, Relation.EARLIER_LATER);
            case RATE, SPO2 -> null;
        };
    }

    /** The sentence beside left and right. */
    static String ofSides() {
        return String.format(
                Locale.ROOT,
                "In 95 of 100 usual chests of children the sides differ by no more than %.0f %% and %.1f crackles a breath.",
                difference(Measure.WHEEZE_SHARE, Relation.LEFT_RIGHT),
                difference(Measure.CRACKLES_PER_BREATH, Relation.LEFT_RIGHT));
    }

    private static @Nullable Double difference(Measure measure, Relation relation) {
        Repeatability.Limit limit = SHIPPED.limit(measure, relation);
        return limit == null ? null : (Double) limit.difference();
    }
}
