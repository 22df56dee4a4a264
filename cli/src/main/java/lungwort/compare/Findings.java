package lungwort.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import lungwort.examine.Suggestion;

/** Says in plain words what stands out between two takes. */
final class Findings {
    private static final Set<Measure> LEVELS =
            Set.of(Measure.LEVEL_100_200, Measure.LEVEL_200_400, Measure.LEVEL_400_800, Measure.LEVEL_800_1600);

    /** If all bands move together within this, a gain or a contact has changed rather than a chest. Common practice. */
    private static final double SAME_SHIFT_DB = 4;

    /** And if they move by at least this. Common practice. */
    private static final double SHIFT_DB = 6;

    private final Relation relation;
    private final TakeMeasures first;
    private final TakeMeasures second;
    private final List<Difference> differences;

    Findings(Relation relation, TakeMeasures first, TakeMeasures second, List<Difference> differences) {
        this.relation = relation;
        this.first = first;
        this.second = second;
        this.differences = differences;
    }

    List<String> list() {
        List<String> findings = new ArrayList<>();
        suggestions(findings);
        boolean judged = first.usable() && second.usable();
        if (!judged) {
            findings.add("Record again what cannot be judged or told before you go by any difference.");
        }
        List<Difference> exceeding =
                differences.stream().filter(Difference::exceeds).toList();
        exceeding.forEach(d -> findings.add(sentence(d)));
        shift(findings);
        if (relation == Relation.UPPER_LOWER) {
            findings.add(
                    "Breath sounds are usually softer at the bases and the sides than at the top: that alone is not a fault."
                            + " No limit is known here for upper against lower; compare left with right at the same height.");
        } else if (exceeding.isEmpty()) {
            findings.add(
                    "No number of which a limit is known differs by more than %s usually do. That does not show that nothing has changed."
                            .formatted(same()));
        } else if (relation == Relation.LEFT_RIGHT && judged) {
            findings.add(
                    "The sides differ. First make sure that both places were at the same height, between ribs and off the shoulder blade, and record both again;"
                            + " if the difference stays, show it to a clinician.");
        }
        return findings;
    }

    private String same() {
        return relation == Relation.LEFT_RIGHT
                ? "the two sides of a chest with no extra sound"
                : "two takes of the same place";
    }

    private void suggestions(List<String> findings) {
        if (first.suggestion() == second.suggestion()) {
            findings.add("Both takes suggest the same: %s.".formatted(words(first.suggestion())));
        } else {
            findings.add("The %s take suggests %s; the %s take %s."
                    .formatted(
                            relation.first(),
                            words(first.suggestion()),
                            relation.second(),
                            words(second.suggestion())));
        }
    }

    static String words(Suggestion suggestion) {
        return switch (suggestion) {
            case CONTINUOUS -> "a continuous extra sound";
            case DISCONTINUOUS -> "crackles";
            case BOTH -> "a continuous extra sound and crackles";
            case NONE_HEARD -> "no extra sound (which is no all-clear)";
            case NONE_STANDS_OUT -> "nothing that stands out (in a recording unlike what Lungwort learnt from)";
            case CANNOT_TELL -> "nothing, it cannot be told";
        };
    }

    private String sentence(Difference d) {
        Repeatability.Limit limit = d.limit();
        Measure m = d.measure();
        String name =
                m.words().substring(0, 1).toUpperCase(Locale.ROOT) + m.words().substring(1);
        return "%s: %s %s, %s %s (%s). %s stay within %s in 95 of 100 pairs."
                .formatted(
                        name,
                        m.format(d.first()),
                        relation.first(),
                        m.format(d.second()),
                        relation.second(),
                        m.formatDifference(d.difference()),
                        same().substring(0, 1).toUpperCase(Locale.ROOT) + same().substring(1),
                        m.format(limit == null ? Double.NaN : limit.difference()));
    }

    private void shift(List<String> findings) {
        double[] shifts = differences.stream()
                .filter(d -> LEVELS.contains(d.measure()))
                .mapToDouble(Difference::difference)
                .sorted()
                .toArray();
        if (shifts.length < LEVELS.size()) {
            return;
        }
        double spread = shifts[shifts.length - 1] - shifts[0];
        double middle = (shifts[shifts.length - 1] + shifts[0]) / 2;
        if (spread <= SAME_SHIFT_DB && Math.abs(middle) >= SHIFT_DB) {
            findings.add(
                    "All bands are %.0f dB %s together: rather the recording level, the contact with the skin or the depth of breathing has changed than the chest."
                            .formatted(Math.abs(middle), middle > 0 ? "louder" : "softer"));
        }
    }
}
