package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** Lists what was not given. A missing value is asked for, and never taken as normal. */
final class Gaps {
    private final RuleBook book;
    private final Situation situation;
    private final @Nullable News2 news2;
    private final List<Missing> missing = new ArrayList<>();

    Gaps(RuleBook book, Situation situation, @Nullable News2 news2) {
        this.book = book;
        this.situation = situation;
        this.news2 = news2;
    }

    List<Missing> list() {
        Vitals vitals = situation.vitals();
        Symptoms symptoms = situation.symptoms();
        dangerSigns();
        ask("pause", PausesHeard.longestOpen(situation) > 0);
        ask(
                "breath-heard",
                situation.sounds().stream()
                        .anyMatch(sound -> (sound.site() == null || sound.site().chest()) && sound.breathOpen()));
        ask("respiratory-rate", vitals.respiratoryRatePerMinute() == null);
        ask("counted-rate", vitals.rateSource() == RateSource.HEARD);
        ask("breathlessness", symptoms.breathlessness() == null);
        ask("fever", symptoms.fever() == null && vitals.temperatureCelsius() == null);
        ask("chest-pain", symptoms.chestPain() == null);
        ask("chest-infection", symptoms.chestInfection() == null);
        ask("spo2", vitals.spo2Percent() == null);
        ask("on-oxygen", vitals.onOxygen() == null);
        boolean flowGiven = vitals.oxygenLitresPerMinute() != null;
        ask("oxygen-flow", Objects.equals(vitals.onOxygen(), true) && !flowGiven);
        ask("oxygen-flow-before", flowGiven && situation.earlier().usualFlow() == null);
        ask("pulse", vitals.pulsePerMinute() == null);
        ask("temperature", vitals.temperatureCelsius() == null);
        ask("consciousness", news2 != null && News2.consciousness(situation) == null);
        ask("systolic", news2 != null && vitals.systolicMmHg() == null);
        ask(
                "peak-flow",
                situation.conditions().has(Condition.ASTHMA)
                        && Reasons.value(situation, Vital.PEAK_FLOW_SHARE) == null);
        boolean heart = situation.conditions().has(Condition.HEART_FAILURE);
        boolean weighed = vitals.weightKg() != null;
        ask("weight", heart && !weighed);
        ask("weight-before", heart && weighed && Weighing.lowest(situation) == null);
        ask("recordings", situation.sounds().isEmpty());
        ask("emergency-number", situation.emergencyNumber() == null);
        return missing;
    }

    private void dangerSigns() {
        DangerAnswers answers = situation.dangerSigns();
        List<String> open = new ArrayList<>();
        for (DangerSign sign : book.dangerSigns()) {
            boolean answered = answers.yes().contains(sign.id()) || answers.no().contains(sign.id());
            if (sign.asked(situation.age(), situation.conditions()) && !answered) {
                open.add(sign.question(situation.age()));
            }
        }
        RuleBook.Ask ask = book.ask("danger-signs", situation.age());
        if (ask == null || open.isEmpty()) {
            return;
        }
        if (open.size()
                == Guidance.dangerSigns(situation.age(), situation.conditions()).size()) {
            missing.add(new Missing(ask.id(), ask.text(), ask.needed()));
        } else {
            open.forEach(q -> missing.add(new Missing(ask.id(), q + " Not answered yet.", ask.needed())));
        }
    }

    private void ask(String id, boolean absent) {
        RuleBook.Ask ask = book.ask(id, situation.age());
        if (absent && ask != null) {
            missing.add(new Missing(ask.id(), ask.text(), ask.needed()));
        }
    }
}
