package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;

/** Lists the limits that hold for a person: for each vital sign, side and outcome the one that is crossed first. */
final class VitalLimits {
    private static final List<Outcome> OUTCOMES = List.of(Outcome.EMERGENCY_NOW, Outcome.BE_SEEN_TODAY);

    private final Situation situation;
    private final LimitsInForce inForce;

    VitalLimits(RuleBook book, Situation situation) {
        this.situation = situation;
        this.inForce = new LimitsInForce(book, situation, Facts.of(situation));
    }

    List<VitalLimit> list() {
        List<VitalLimit> limits = new ArrayList<>();
        for (Vital vital : Vital.values()) {
            for (Outcome outcome : OUTCOMES) {
                for (boolean low : new boolean[] {true, false}) {
                    LimitsInForce.Held held = inForce.clinician(vital, outcome, low);
                    held = held == null ? inForce.general(vital, outcome, low) : held;
                    if (held != null) {
                        limits.add(limit(held, outcome));
                    }
                }
            }
        }
        return limits;
    }

    private VitalLimit limit(LimitsInForce.Held held, Outcome outcome) {
        Rule.Limit limit = held.limit();
        Double value = Reasons.value(situation, limit.vital());
        boolean crossed = value != null && limit.crossed(value);
        return new VitalLimit(limit.vital(), limit.words(), outcome, crossed, held.sources());
    }
}
