package lungwort.round;

import java.util.Locale;
import java.util.Objects;
import lungwort.compare.Measure;
import lungwort.compare.Relation;
import lungwort.compare.Repeatability;
import lungwort.diary.Trend;

/** How far numbers differ that mean the same, so that nobody takes it for a change. */
public final class Noise {
    private static final Repeatability SHIPPED = Repeatability.shipped();

    private Noise() {}

    /** A breath more or less at either end of a counted minute: common practice [C]. */
    private static final double OF_A_COUNT = 2;

    /** A fall of 3 % is what the guidance goes by (rule oxygen-below-own-usual); less is within an oximeter's error. */
    private static final double OF_AN_OXIMETER = 2;

    /** How far the same thing measured twice differs, in the unit of the measure: sounds by the shipped study of two takes, the others as said here. */
    public static double ofTwoTakes(Trend.Measure measure) {
        return switch (measure) {
            case WHEEZE_SHARE -> difference(Measure.WHEEZE_SHARE, Relation.EARLIER_LATER);
            case CRACKLES_PER_BREATH -> difference(Measure.CRACKLES_PER_BREATH, Relation.EARLIER_LATER);
            case RATE -> OF_A_COUNT;
            case SPO2 -> OF_AN_OXIMETER;
        };
    }

    /** The sentence beside a measure that is followed from day to day. */
    public static String words(Trend.Measure measure) {
        return switch (measure) {
            case WHEEZE_SHARE ->
                String.format(
                        Locale.ROOT,
                        "Two takes at one place differ by up to %.0f %% with nothing changed.",
                        ofTwoTakes(measure));
            case CRACKLES_PER_BREATH ->
                String.format(
                        Locale.ROOT,
                        "Two takes at one place differ by up to %.1f with nothing changed.",
                        ofTwoTakes(measure));
            case RATE ->
                String.format(
                        Locale.ROOT,
                        "Two counts differ by up to %.0f with nothing changed; rates heard in recordings by up to %.0f.",
                        ofTwoTakes(measure),
                        difference(Measure.RATE, Relation.EARLIER_LATER));
            case SPO2 ->
                String.format(
                        Locale.ROOT, "Two readings differ by up to %.0f %% with nothing changed.", ofTwoTakes(measure));
        };
    }

    /** The sentence beside left and right. */
    public static String ofSides() {
        return String.format(
                Locale.ROOT,
                "In 95 of 100 usual chests of children the sides differ by no more than %.0f %% and %.1f crackles a breath.",
                difference(Measure.WHEEZE_SHARE, Relation.LEFT_RIGHT),
                difference(Measure.CRACKLES_PER_BREATH, Relation.LEFT_RIGHT));
    }

    private static double difference(Measure measure, Relation relation) {
        return Objects.requireNonNull(SHIPPED.limit(measure, relation)).difference();
    }
}
