package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Says what would make the next step graver: the nearest limits for this age and person. */
final class Changes {
    private static final List<Vital> TOLD = List.of(Vital.SPO2, Vital.RESPIRATORY_RATE, Vital.PULSE, Vital.TEMPERATURE);

    private final LimitsInForce limits;
    private final @Nullable UsualSpo2 usualSpo2;
    private final @Nullable UsualRate usualRate;
    private final @Nullable UsualFlow usualFlow;
    private final boolean mayRetainCo2;
    private final boolean oxygenWouldBeNew;
    private final boolean saysWhatHurts;

    /** Above which weight a clinician is asked for; empty where weights are not judged, or none is known. */
    private final String weightAbove;

    /** What people with a condition are asked beside the others. */
    private final List<String> signs;

    Changes(RuleBook book, Situation situation, Set<Fact> facts) {
        this.saysWhatHurts = Guidance.asksForChestPain(situation.age());
        this.signs = book.dangerSigns().stream()
                .filter(s -> !s.conditions().isEmpty()
                        && s.outcome() == Outcome.BE_SEEN_TODAY
                        && s.asked(situation.age(), situation.conditions()))
                .map(s -> s.question(situation.age()) + " Yes: be seen today.")
                .toList();
        this.usualSpo2 = situation.usualSpo2();
        this.usualRate = book.onRateAboveUsual(situation, facts).isPresent()
                ? situation.earlier().usualRate()
                : null;
        this.usualFlow = facts.contains(Fact.ON_OXYGEN) ? situation.earlier().usualFlow() : null;
        this.mayRetainCo2 = facts.contains(Fact.MAY_RETAIN_CO2);
        this.oxygenWouldBeNew = facts.contains(Fact.WITHOUT_OXYGEN_UNTIL_NOW) && !facts.contains(Fact.ON_OXYGEN);
        this.limits = new LimitsInForce(book, situation, facts);
        this.weightAbove = weightAbove(situation);
    }

    List<String> list(Outcome now) {
        List<String> changes = new ArrayList<>();
        if (now == Outcome.EMERGENCY_NOW) {
            return changes;
        }
        changes.add("A danger sign appears: answer its question here, and call for help.");
        for (Outcome graver : List.of(Outcome.EMERGENCY_NOW, Outcome.BE_SEEN_TODAY)) {
            if (graver.compareTo(now) < 0) {
                TOLD.forEach(vital -> limits(changes, vital, graver));
            }
        }
        if (Outcome.BE_SEEN_TODAY.compareTo(now) < 0) {
            if (usualSpo2 != null) {
                changes.add(String.format(
                        Locale.ROOT,
                        "SpO2 %d %% or less, %d %% below this person's own usual of %s: be seen today.",
                        usualSpo2.percent() - Facts.FALL_OF_SPO2_PERCENT,
                        Facts.FALL_OF_SPO2_PERCENT,
                        usualSpo2.words()));
            }
            if (usualRate != null) {
                changes.add(Reasons.capital(usualRate.limitWords()) + " of " + usualRate.words() + ": be seen today.");
            }
            if (usualFlow != null) {
                changes.add(Reasons.capital(usualFlow.limitWords(mayRetainCo2)) + ": be seen today.");
            }
            if (oxygenWouldBeNew) {
                changes.add("Extra oxygen is needed, which was not needed until now: be seen today.");
            }
            changes.add(
                    "Shortness of breath at rest, %sor an extra sound with fever or signs of a chest infection: be seen today."
                            .formatted(saysWhatHurts ? "chest pain, " : ""));
            signs.forEach(changes::add);
            if (!weightAbove.isEmpty()) {
                changes.add(weightAbove);
            }
            changes.add("An extra sound that moving, deep breaths and a cough do not clear: be seen today.");
        }
        changes.add("It gets worse, or you are worried: get help, whatever the numbers say.");
        return changes;
    }

    private String weightAbove(Situation situation) {
        LimitsInForce.Held held = limits.general(Vital.WEIGHT_RISE, Outcome.BE_SEEN_TODAY, false);
        EarlierWeight lowest = Weighing.lowest(situation);
        return held == null || lowest == null
                ? ""
                : String.format(
                        Locale.ROOT,
                        "Weight above %.1f kg, more than %s kg above %s: be seen today.",
                        lowest.kg() + held.limit().value(),
                        Vital.number(held.limit().value()),
                        lowest.words());
    }

    private void limits(List<String> changes, Vital vital, Outcome outcome) {
        for (boolean low : new boolean[] {true, false}) {
            Rule.Limit limit = widest(vital, outcome, low);
            Rule.Limit graver = outcome == Outcome.BE_SEEN_TODAY ? widest(vital, Outcome.EMERGENCY_NOW, low) : null;
            if (limit != null && (graver == null || limit.widerThan(graver) && !limit.equals(graver))) {
                changes.add(Reasons.capital(limit.words())
                        + (outcome == Outcome.EMERGENCY_NOW ? ": emergency." : ": be seen today."));
            }
        }
    }

    private Rule.@Nullable Limit widest(Vital vital, Outcome outcome, boolean low) {
        LimitsInForce.Held clinician = limits.clinician(vital, outcome, low);
        LimitsInForce.Held general = limits.general(vital, outcome, low);
        if (clinician == null) {
            return general == null ? null : general.limit();
        }
        return general != null && general.limit().widerThan(clinician.limit()) ? general.limit() : clinician.limit();
    }
}
