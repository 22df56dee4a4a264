package lungwort.guidance;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Which limits hold for a person: those of the rules that apply, where no clinician's stand in their place, and the clinician's own. */
final class LimitsInForce {
    private final RuleBook book;
    private final Situation situation;
    private final Set<Fact> facts;

    LimitsInForce(RuleBook book, Situation situation, Set<Fact> facts) {
        this.book = book;
        this.situation = situation;
        this.facts = facts;
    }

    /**
     * A limit and who set it.
     *
     * @param limit the limit
     * @param sources where it stands
     */
    record Held(Rule.Limit limit, List<Citation> sources) {}

    /** The limit of the rules that is crossed first on one side of a vital sign; null where there is none. */
    @Nullable
    Held general(Vital vital, Outcome outcome, boolean low) {
        Held first = null;
        for (Rule rule : book.rules()) {
            Rule.Limit limit = rule.limit();
            if (limit != null
                    && limit.vital() == vital
                    && limit.is().low() == low
                    && rule.outcome() == outcome
                    && rule.applies(situation.age(), facts)
                    && !Reasons.replaced(situation.limits(), limit)
                    && (first == null || limit.widerThan(first.limit()))) {
                first = new Held(limit, rule.sources());
            }
        }
        return first;
    }

    /** The limit that a clinician set for this person on one side of a vital sign; null where there is none. */
    @Nullable
    Held clinician(Vital vital, Outcome outcome, boolean low) {
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
        return new Held(
                new Rule.Limit(vital, is, value), List.of(new Citation("set for this person by " + who, "clinician")));
    }
}
