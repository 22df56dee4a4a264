package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Lists the limits that hold for a person: for each vital sign, side and outcome the one that is crossed first. */
final class VitalLimits {
    private static final List<Outcome> OUTCOMES = List.of(Outcome.EMERGENCY_NOW, Outcome.BE_SEEN_TODAY);

    private final RuleBook book;
    private final Situation situation;
    private final Set<Fact> facts;

    VitalLimits(RuleBook book, Situation situation) {
        this.book = book;
        this.situation = situation;
        this.facts = Facts.of(situation);
    }

    List<VitalLimit> list() {
        List<VitalLimit> limits = new ArrayList<>();
        for (Vital vital : Vital.values()) {
            for (Outcome outcome : OUTCOMES) {
                for (boolean low : new boolean[] {true, false}) {
                    VitalLimit limit = clinician(vital, outcome, low);
                    limit = limit == null ? general(vital, outcome, low) : limit;
                    if (limit != null) {
                        limits.add(limit);
                    }
                }
            }
        }
        return limits;
    }

    private @Nullable VitalLimit general(Vital vital, Outcome outcome, boolean low) {
        Rule.Limit first = null;
        Rule of = null;
        for (Rule rule : book.rules()) {
            Rule.Limit limit = rule.limit();
            if (limit != null
                    && limit.vital() == vital
                    && limit.is().low() == low
                    && rule.outcome() == outcome
                    && rule.applies(situation.age(), facts)
                    && !Reasons.replaced(situation.limits(), limit)
                    && (first == null || limit.widerThan(first))) {
                first = limit;
                of = rule;
            }
        }
        return first == null || of == null ? null : limit(first, outcome, of.sources());
    }

    private @Nullable VitalLimit clinician(Vital vital, Outcome outcome, boolean low) {
        ClinicianLimits limits = situation.limits();
        ClinicianLimits.Limit set = switch (vital) {
            case SPO2 -> low ? limits.spo2Below() : null;
            case RESPIRATORY_RATE -> low ? null : limits.respiratoryRateAbove();
            case PULSE -> low ? null : limits.pulseAbove();
            default -> null;
        };
        if (set == null) {
            return null;
        }
        int value = outcome == Outcome.EMERGENCY_NOW ? set.emergency() : set.seenToday();
        Rule.Comparison is = low ? Rule.Comparison.AT_MOST : Rule.Comparison.AT_LEAST;
        String who = limits.setOn().isBlank() ? limits.setBy() : limits.setBy() + ", " + limits.setOn();
        return limit(
                new Rule.Limit(vital, is, value),
                outcome,
                List.of(new Citation("set for this person by " + who, "clinician")));
    }

    private VitalLimit limit(Rule.Limit limit, Outcome outcome, List<Citation> sources) {
        Double value = Reasons.value(situation, limit.vital());
        return new VitalLimit(limit.vital(), limit.words(), outcome, value != null && limit.crossed(value), sources);
    }
}
