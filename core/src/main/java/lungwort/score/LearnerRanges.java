package lungwort.score;

import java.math.BigDecimal;
import java.util.Map;
import java.util.TreeMap;
import lungwort.BadInput;
import lungwort.classify.LearnerSettings;

/** What a learner's settings in a recipe may be. The ends only keep out what cannot be meant or never comes to an end; what lies between them is the recipe's affair. */
final class LearnerRanges {
    private static final Map<String, Range> RANGES = Map.ofEntries(
            Map.entry("rounds", Range.whole(1, 10_000)),
            Map.entry("leaves", Range.whole(2, 100_000)),
            Map.entry("learningRate", Range.real(1e-6, 1)),
            Map.entry("columnShare", Range.real(1e-6, 1)),
            Map.entry("rowShare", Range.real(1e-6, 1)),
            Map.entry("minLeafRows", Range.whole(1, 100_000)),
            Map.entry("l2", Range.real(0, 1e6)),
            Map.entry("trees", Range.whole(1, 10_000)),
            Map.entry("columns", Range.whole(0, 10_000)),
            Map.entry("penalty", Range.real(1e-6, 1e6)),
            Map.entry("width", Range.real(1e-6, 1e6)),
            Map.entry("ridge", Range.real(0, 1e9)),
            Map.entry("iterations", Range.whole(1, 10_000)),
            Map.entry("nets", Range.whole(1, 100)),
            Map.entry("hidden", Range.whole(1, 10_000)),
            Map.entry("epochs", Range.whole(1, 10_000)),
            Map.entry("inputDropout", Range.real(0, 0.99)),
            Map.entry("hiddenDropout", Range.real(0, 0.99)),
            Map.entry("decay", Range.real(0, 100)));

    private LearnerRanges() {}

    /** @throws BadInput if a setting is out of its range */
    static void check(LearnerSettings learner) {
        new TreeMap<>(learner.numbers()).forEach((name, value) -> {
            Range range = range(name);
            if (!(value >= range.least() && value <= range.most()) || range.whole() && value != Math.rint(value)) {
                throw BadInput.of(
                        "The recipe sets '%s' of a %s to %s; use %s.",
                        name, learner.kind(), plain(value), range.words());
            }
        });
    }

    /** Both ends included. */
    static Range range(String setting) {
        Range range = RANGES.get(setting);
        if (range == null) {
            throw new IllegalStateException("no range for a learner's setting " + setting);
        }
        return range;
    }

    record Range(double least, double most, boolean whole) {
        private static Range real(double least, double most) {
            return new Range(least, most, false);
        }

        private static Range whole(int least, int most) {
            return new Range(least, most, true);
        }

        String words() {
            return (whole ? "a whole number from " : "a number from ") + plain(least) + " to " + plain(most);
        }
    }

    /** As people write it: without an exponent, without a point where there is nothing behind it. */
    static String plain(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
