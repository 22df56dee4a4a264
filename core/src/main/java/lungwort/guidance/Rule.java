package lungwort.guidance;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One rule: at these ages, with these facts, and where it has a limit with this value crossed, this outcome.
 *
 * @param id name, for example {@code home-oximetry-severe}
 * @param fromMonths youngest age, included
 * @param toMonths oldest age, included
 * @param limit on a vital sign; null where the rule has none
 * @param pauseSeconds it applies where a pause at least so long was heard in a recording and is not explained; 0 where the rule does not ask
 * @param when all of these must hold
 * @param either one of these must hold, where there are any
 * @param unless none of these may hold
 * @param outcome what it leads to
 * @param text why, in plain words
 * @param action what to do about it now; empty where the outcome says enough
 * @param sources where it stands
 */
record Rule(
        String id,
        int fromMonths,
        int toMonths,
        @Nullable Limit limit,
        double pauseSeconds,
        Set<Fact> when,
        Set<Fact> either,
        Set<Fact> unless,
        Outcome outcome,
        String text,
        String action,
        List<Citation> sources) {

    enum Comparison {
        BELOW("below") {
            @Override
            boolean crossed(double value, double limit) {
                return value < limit;
            }
        },
        AT_MOST("at-most") {
            @Override
            boolean crossed(double value, double limit) {
                return value <= limit;
            }
        },
        ABOVE("above") {
            @Override
            boolean crossed(double value, double limit) {
                return value > limit;
            }
        },
        AT_LEAST("at-least") {
            @Override
            boolean crossed(double value, double limit) {
                return value >= limit;
            }
        };

        private final String id;

        Comparison(String id) {
            this.id = id;
        }

        String id() {
            return id;
        }

        abstract boolean crossed(double value, double limit);

        boolean low() {
            return this == BELOW || this == AT_MOST;
        }
    }

    /**
     * A limit on a vital sign.
     *
     * @param vital which
     * @param is how the value is compared
     * @param value in the unit of the vital sign
     */
    record Limit(Vital vital, Comparison is, double value) {
        boolean crossed(double measured) {
            return is.crossed(measured, value);
        }

        /** In plain words, for example "SpO2 92 % or less", "breathing rate above 60 breaths a minute". */
        String words() {
            String number = Vital.number(value) + " " + vital.unit();
            return vital.words()
                    + switch (is) {
                        case BELOW -> " below " + number;
                        case AT_MOST -> " " + number + " or less";
                        case ABOVE -> " above " + number;
                        case AT_LEAST -> " " + number + " or more";
                    };
        }

        /** True if every value that crosses the other limit crosses this one too. */
        boolean widerThan(Limit other) {
            if (value != other.value) {
                return is.low() ? value > other.value : value < other.value;
            }
            return is == Comparison.AT_MOST || is == Comparison.AT_LEAST;
        }
    }

    boolean applies(Age age, Set<Fact> facts) {
        return age.months() >= fromMonths
                && age.months() <= toMonths
                && facts.containsAll(when)
                && (either.isEmpty() || either.stream().anyMatch(facts::contains))
                && unless.stream().noneMatch(facts::contains);
    }

    /** The limit with its ages, for people; empty without a limit. */
    String limitWords() {
        if (limit == null) {
            return "";
        }
        String ages = fromMonths == 0 && toMonths >= Age.MAX_MONTHS ? "" : ", " + agesWords();
        return limit.words() + ages;
    }

    private String agesWords() {
        if (toMonths >= Age.MAX_MONTHS) {
            return "from " + new Age(fromMonths).words();
        }
        String below = new Age(toMonths + 1).words();
        return fromMonths == 0 ? "under " + below : "from " + new Age(fromMonths).words() + " to under " + below;
    }
}
