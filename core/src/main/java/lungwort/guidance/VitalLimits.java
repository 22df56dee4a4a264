package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Lists the limits that hold for a person: for each vital sign, side and outcome the one that is crossed first. */
final class VitalLimits {
    private static final List<Outcome> OUTCOMES = List.of(Outcome.EMERGENCY_NOW, Outcome.BE_SEEN_TODAY);

    private final RuleBook book;
    private final Situation situation;
    private final Set<Fact> facts;
    private final LimitsInForce inForce;

    VitalLimits(RuleBook book, Situation situation) {
        this.book = book;
        this.situation = situation;
        this.facts = Facts.of(situation);
        this.inForce = new LimitsInForce(book, situation, facts);
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
            watched(limits, vital);
        }
        belowUsual(limits);
        aboveUsual(limits);
        moreOxygen(limits);
        return limits;
    }

    /** This person's own usual is a limit too. */
    private void belowUsual(List<VitalLimit> limits) {
        UsualSpo2 usual = situation.usualSpo2();
        if (usual != null) {
            Rule rule = ruleOn(Fact.SPO2_BELOW_USUAL);
            limits.add(new VitalLimit(
                    Vital.SPO2,
                    String.format(
                            Locale.ROOT,
                            "SpO2 %d %% or less, %d %% below this person's own usual of %d %%",
                            usual.percent() - Facts.FALL_OF_SPO2_PERCENT,
                            Facts.FALL_OF_SPO2_PERCENT,
                            usual.percent()),
                    rule.outcome(),
                    Facts.belowUsual(situation.vitals().spo2Percent(), usual),
                    rule.sources()));
        }
    }

    private Rule ruleOn(Fact fact) {
        return book.rules().stream()
                .filter(r -> r.when().contains(fact))
                .findFirst()
                .orElseThrow();
    }

    private void aboveUsual(List<VitalLimit> limits) {
        UsualRate usual = situation.earlier().usualRate();
        Rule rule = book.onRateAboveUsual(situation, facts).orElse(null);
        if (usual != null && rule != null) {
            limits.add(new VitalLimit(
                    Vital.RESPIRATORY_RATE,
                    usual.limitWords() + " of " + Vital.number(usual.perMinute()),
                    rule.outcome(),
                    usual.risenIn(situation.vitals()),
                    rule.sources()));
        }
    }

    /** Where only another look is asked for, that is told as the other limits are that ask for one. */
    private void moreOxygen(List<VitalLimit> limits) {
        UsualFlow usual = situation.earlier().usualFlow();
        if (usual == null) {
            return;
        }
        boolean whateverSpo2 = facts.contains(Fact.MAY_RETAIN_CO2);
        boolean higher = facts.contains(Fact.MORE_OXYGEN_HIGHER_SPO2);
        Rule rule = ruleOn(Fact.MORE_OXYGEN);
        limits.add(new VitalLimit(
                Vital.OXYGEN_FLOW,
                usual.limitWords(whateverSpo2),
                rule.outcome(),
                facts.contains(Fact.MORE_OXYGEN) || higher && whateverSpo2,
                rule.sources()));
        if (higher && !whateverSpo2) {
            limits.add(
                    new VitalLimit(Vital.OXYGEN_FLOW, usual.limitWords(true), Outcome.NEXT_TAKE, true, rule.sources()));
        }
    }

    /** A limit that only asks for another look is told where it is crossed and no graver one is: else a table would say that none is, beside a reason that names it. */
    private void watched(List<VitalLimit> limits, Vital vital) {
        for (boolean low : new boolean[] {true, false}) {
            LimitsInForce.Held held = inForce.general(vital, Outcome.NEXT_TAKE, low);
            boolean graver = limits.stream().anyMatch(l -> l.vital() == vital && l.crossed());
            if (held != null && !graver) {
                VitalLimit limit = limit(held, Outcome.NEXT_TAKE);
                if (limit.crossed()) {
                    limits.add(limit);
                }
            }
        }
    }

    private VitalLimit limit(LimitsInForce.Held held, Outcome outcome) {
        Rule.Limit limit = held.limit();
        Double value = Reasons.value(situation, limit.vital());
        boolean crossed = value != null && limit.crossed(value);
        return new VitalLimit(limit.vital(), limit.words(), outcome, crossed, held.sources());
    }
}
