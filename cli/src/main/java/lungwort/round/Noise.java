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

    /** Litres a minute: 1.96 times the root of 2 times 19.9, the within-subject standard deviation with a mini meter. Bland and Altman, Lancet 1986 [M]. */
    private static final double OF_A_PEAK_FLOW_METER = 55;

    /** In kg: a meal and a drink, clothes, a full bladder. Common practice [C]. */
    private static final double OF_A_SCALE = 1;

    /** How far the same thing measured twice differs, in the unit of the measure: sounds by the shipped study of two takes, the others as said here. */
    public static double ofTwoTakes(Trend.Measure measure) {
        return switch (measure) {
            case WHEEZE_SHARE -> difference(Measure.WHEEZE_SHARE, Relation.EARLIER_LATER);
            case CRACKLES_PER_BREATH -> difference(Measure.CRACKLES_PER_BREATH, Relation.EARLIER_LATER);
            case RATE -> OF_A_COUNT;
            case SPO2 -> OF_AN_OXIMETER;
            case PEAK_FLOW -> OF_A_PEAK_FLOW_METER;
            case WEIGHT -> OF_A_SCALE;
            // It is set, not measured.
            case OXYGEN_FLOW -> 0;
        };
    }

    /** Said once beside {@link #words}: nobody may take a new sound for chance because its number is small. */
    public static final String CAUTION =
            "A change that chance could make can still be real: tell the clinician of a new sound, however little of it there is."
                    + " The number of a sound is a mean over the places that have one: it can fall while the sound spreads to more places.";

    /** The sentence beside a measure that is followed from day to day. */
    public static String words(Trend.Measure measure) {
        double chance = ofTwoTakes(measure);
        return switch (measure) {
            case WHEEZE_SHARE ->
                String.format(Locale.ROOT, "By chance two takes at one place can differ by %.0f %%.", chance);
            case CRACKLES_PER_BREATH ->
                String.format(Locale.ROOT, "By chance two takes at one place can differ by %.1f.", chance);
            case RATE ->
                String.format(
                        Locale.ROOT,
                        "By chance two counts can differ by %.0f, and two rates heard in recordings by %.0f.",
                        chance,
                        difference(Measure.RATE, Relation.EARLIER_LATER));
            case PEAK_FLOW -> String.format(Locale.ROOT, "By chance two readings can differ by %.0f.", chance);
            case SPO2 -> String.format(Locale.ROOT, "By chance two readings can differ by %.0f %%.", chance);
            case OXYGEN_FLOW ->
                "As set, at rest. Change it only as the clinician said. An unchanged flow says nothing good.";
            case WEIGHT ->
                String.format(
                        Locale.ROOT, "Meals, clothes or another scale alone can make %.0f kg; weigh alike.", chance);
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
