package lungwort.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import lungwort.guidance.Age;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.DangerSign;
import lungwort.guidance.EarlierWeight;
import lungwort.guidance.Guidance;
import lungwort.guidance.News2;
import lungwort.guidance.RateSource;
import lungwort.guidance.Symptoms;
import lungwort.guidance.UsualFlow;
import lungwort.guidance.Vital;
import lungwort.guidance.VitalLimit;
import lungwort.guidance.Vitals;
import lungwort.picture.Words;
import lungwort.round.RoundView;
import lungwort.round.RoundWords;
import org.jspecify.annotations.Nullable;

/** What was asked, measured and written down: facts, apart from what the software suggests. */
final class FactsHtml {
    /** Shown even where they were not measured: their absence is a fact too. */
    private static final List<Vital> ALWAYS =
            List.of(Vital.SPO2, Vital.RESPIRATORY_RATE, Vital.PULSE, Vital.TEMPERATURE);

    private final Html html;
    private final ReportRound round;
    private final RoundView view;
    private final Medium medium;

    FactsHtml(Html html, ReportRound round, Medium medium) {
        this.html = html;
        this.round = round;
        this.medium = medium;
        this.view = round.view();
    }

    void write() {
        html.start("section", "class", "facts");
        html.tag("h3", "Facts: danger signs");
        dangerSigns();
        html.tag("h3", "Facts: vital signs, with the limits that hold for this age and person");
        vitals();
        news2();
        html.tag("h3", "Facts: symptoms and words");
        words();
        html.end();
    }

    private void dangerSigns() {
        for (String id : view.round().dangerSigns().yes()) {
            DangerSign sign = Guidance.dangerSign(id);
            html.start("p", "class", "danger").tag("strong", "DANGER SIGN. ");
            html.text("%s Yes. (%s)".formatted(sign.question(view.age()), ReportWords.sources(sign.sources())))
                    .end();
        }
        if (view.breathingStopped()) {
            html.start("p", "class", "danger").tag("strong", "DANGER SIGN. ");
            html.text("Said of a recording: " + RoundWords.BREATHING_STOPPED).end();
        }
        int open = view.dangerSignsOpen().size();
        int asked = Guidance.dangerSigns(view.age(), view.person().conditions()).size();
        if (open > 0) {
            html.start("p", "class", "danger").tag("strong", "Not answered: %d of %d. ".formatted(open, asked));
            html.text("Not taken as absent: "
                            + view.dangerSignsOpen().stream()
                                    .map(s -> s.question(view.age()))
                                    .collect(Collectors.joining(" ")))
                    .end();
        }
        List<String> no = Guidance.allDangerSigns().stream()
                .filter(s -> view.round().dangerSigns().no().contains(s.id()))
                .map(s -> s.question(view.age()))
                .toList();
        if (!no.isEmpty()) {
            html.start("p").tag("strong", "Asked, and answered with no (%d): ".formatted(no.size()));
            html.text(String.join(" ", no)).end();
        }
    }

    private void vitals() {
        List<List<String>> rows = new ArrayList<>();
        for (Vital vital : Vital.values()) {
            Double value = value(vital);
            // No limit holds for litres: where the best is known, they stand beside its share, in the row that has
            // limits.
            boolean besideShare = vital == Vital.PEAK_FLOW && value(Vital.PEAK_FLOW_SHARE) != null;
            if (vital == Vital.WEIGHT && value != null) {
                rows.add(weight(value));
                continue;
            }
            if ((value != null || ALWAYS.contains(vital)) && !besideShare) {
                rows.add(List.of(
                        ReportWords.capital(vital.words()),
                        value == null
                                ? "not measured, not taken as normal"
                                : number(vital, value) + " " + vital.unit() + how(vital),
                        vital == Vital.PEAK_FLOW
                                ? "not known: this person's best is not written down"
                                : crossed(vital, value != null),
                        vital == Vital.PEAK_FLOW ? "limits are shares of the best" : limits(vital)));
            }
        }
        Tables.write(
                html,
                "vitals",
                "Vital signs as measured; limits by age with their sources",
                List.of("Vital sign", "Value", "Limits crossed", "Limits that hold, with source"),
                rows);
        if (view.vitals().weightKg() != null && !medium.tight()) {
            html.tag("p", ReportWords.WEIGHING);
        }
        var level = view.vitals().consciousness();
        if (level != null) {
            html.tag("p", "Consciousness: " + level.words() + ".");
        }
        setByClinician(view.person().limits());
    }

    /** What a weight tells is its rise: that has the limit. */
    private List<String> weight(double kg) {
        EarlierWeight before = view.earlier().weightBefore(view.vitals(), view.age());
        boolean judged = round.limits().stream().anyMatch(l -> l.vital() == Vital.WEIGHT_RISE);
        boolean again = round.step().reasons().stream().anyMatch(r -> r.rule().equals("weight-far"));
        // The limit itself is told once, in the column beside it.
        String crossed = judged
                ? crossed(Vital.WEIGHT_RISE, before != null).replaceFirst("CROSSED: [^:]*: ", "CROSSED: ")
                : "not judged";
        String limits = judged
                ? "rise within %d days %s".formatted(EarlierWeight.DAYS_OF_RISE, limits(Vital.WEIGHT_RISE))
                : "judged from 16 years, with heart failure";
        return List.of(
                ReportWords.capital(Vital.WEIGHT.words()),
                Words.number(kg) + " " + Vital.WEIGHT.unit()
                        + (before == null ? " (none of the 3 days before)" : " (%s)".formatted(before.words())),
                again ? "TO BE WEIGHED AGAIN: far from an earlier one; " + crossed : crossed,
                limits);
    }

    private void setByClinician(ClinicianLimits limits) {
        if (limits.equals(ClinicianLimits.NONE)) {
            return;
        }
        List<String> parts = new ArrayList<>();
        if (limits.spo2Scale2()) {
            parts.add("SpO2 target 88 to 92 % (scale 2)");
        }
        pair(parts, "SpO2 at or below", "%", limits.spo2Below());
        pair(parts, "breathing rate at or above", "a minute", limits.respiratoryRateAbove());
        pair(parts, "pulse at or above", "a minute", limits.pulseAbove());
        if (!parts.isEmpty()) {
            String on = limits.setOn().isBlank() ? "" : ", " + limits.setOn();
            html.start("p").tag("strong", "Set for this person by %s%s: ".formatted(limits.setBy(), on));
            html.text(String.join("; ", parts) + ".").end();
        }
        ClinicianLimits.StatedUsual usual = limits.usualSpo2();
        if (usual != null) {
            String on = usual.setOn().isBlank() ? "" : ", " + usual.setOn();
            html.start("p").tag("strong", "Stated for this person by %s%s: ".formatted(usual.setBy(), on));
            html.text(usual.words() + ".").end();
        }
        if (limits.bestPeakFlowLitresPerMinute() != null) {
            html.tag(
                    "p",
                    "This person's best peak flow, as written down: %d litres a minute."
                            .formatted(limits.bestPeakFlowLitresPerMinute()));
        }
    }

    private static void pair(List<String> parts, String what, String unit, ClinicianLimits.@Nullable Limit limit) {
        if (limit != null) {
            parts.add("%s %d %s be seen today, %d %s emergency"
                    .formatted(what, limit.seenToday(), unit, limit.emergency(), unit));
        }
    }

    private @Nullable Double value(Vital vital) {
        Integer best = view.person().limits().bestPeakFlowLitresPerMinute();
        Integer flow = view.vitals().peakFlowLitresPerMinute();
        if (vital == Vital.PEAK_FLOW_SHARE) {
            return best == null || flow == null ? null : (Double) (100.0 * flow / best);
        }
        return view.vitals().value(vital);
    }

    /** Babies have thousandths of a litre of oxygen. */
    private static String number(Vital vital, double value) {
        return vital == Vital.OXYGEN_FLOW ? Vital.number(value) : Words.number(value);
    }

    private String how(Vital vital) {
        Vitals vitals = view.vitals();
        if (vital == Vital.SPO2) {
            return vitals.onOxygen() == null
                    ? " (air or oxygen not given)"
                    : vitals.onOxygen() ? " " + vitals.howMeasured() : " on room air";
        }
        if (vital == Vital.OXYGEN_FLOW) {
            UsualFlow before = view.earlier().usualFlow();
            return before == null
                    ? " (none known before)"
                    : " (before: %s)"
                            .formatted(medium.tight() ? UsualFlow.litres(before.litresPerMinute()) : before.words());
        }
        if (vital == Vital.RESPIRATORY_RATE) {
            String asleep = vitals.asleep() != null && vitals.asleep() ? ", asleep" : "";
            return (vitals.rateSource() == RateSource.HEARD
                            ? " (heard in recordings by the software, NOT counted"
                            : " (counted")
                    + asleep + ")";
        }
        if (vital == Vital.PEAK_FLOW_SHARE) {
            return " (%d litres a minute)".formatted(vitals.peakFlowLitresPerMinute());
        }
        return "";
    }

    private String crossed(Vital vital, boolean measured) {
        if (!measured) {
            return "not known";
        }
        List<String> crossed = round.limits().stream()
                .filter(l -> l.vital() == vital && l.crossed())
                .map(l -> "%s: %s".formatted(l.words(), l.outcome().words().toLowerCase(java.util.Locale.ROOT)))
                .toList();
        return crossed.isEmpty() ? "none that Lungwort knows" : "CROSSED: " + String.join("; ", crossed);
    }

    private String limits(Vital vital) {
        String words = round.limits().stream()
                .filter(l -> l.vital() == vital)
                .map(FactsHtml::limit)
                .collect(Collectors.joining("; "));
        return !words.isEmpty()
                ? words
                : vital == Vital.OXYGEN_FLOW ? "held against earlier flows; none is known" : "none known for this age";
    }

    private static String limit(VitalLimit limit) {
        String word = switch (limit.outcome()) {
            case EMERGENCY_NOW -> "emergency";
            case BE_SEEN_TODAY -> "be seen today";
            case NEXT_TAKE, KEEP_WATCHING -> limit.outcome().words();
        };
        return "%s: %s (%s)".formatted(ReportWords.unnamed(limit), word, ReportWords.sources(limit.sources()));
    }

    private void news2() {
        News2 score = round.step().news2();
        if (score == null) {
            return;
        }
        String parts =
                score.parts().stream().map(p -> p.name() + " " + p.points()).collect(Collectors.joining(", "));
        String total = score.complete()
                ? "NEWS2 %d".formatted(score.total())
                : "NEWS2 at least %d (not complete)".formatted(score.total());
        html.start("p").tag("strong", total);
        html.text(score.scale2() ? ", SpO2 scale 2 as a clinician set it" : ", SpO2 scale 1");
        html.text(parts.isEmpty() ? "." : ": " + parts + ".");
        if (!score.complete()) {
            html.text(" Not scored: %s.".formatted(String.join(", ", score.missing())));
        }
        html.text(" Source: Royal College of Physicians 2017 [S]; for ages from 16 years, not in pregnancy.")
                .end();
    }

    private void words() {
        html.tag("p", ReportWords.capital(symptoms(view.round().symptoms(), view.age())) + ".");
        named("Seen, in the family's words", view.round().symptomWords());
        named("Medicines, as written down", view.round().medicines());
        view.notes().forEach(n -> named("Note of " + ReportWords.time(n.writtenAt()), n.words()));
    }

    private void named(String name, String words) {
        if (!words.isEmpty()) {
            html.start("p", "class", "words")
                    .tag("strong", name + ": ")
                    .text(words)
                    .end();
        }
    }

    static String symptoms(Symptoms s, Age age) {
        List<String> parts = new ArrayList<>();
        Breathlessness breath = s.breathlessness();
        parts.add(breath == null ? "breathlessness not asked" : breath.words(age));
        // Whoever cannot say yet that something hurts is not asked: that is no gap.
        if (s.chestPain() != null || Guidance.asksForChestPain(age)) {
            parts.add(answer("chest pain or tightness", s.chestPain()));
        }
        parts.add(answer("fever", s.fever()));
        parts.add(answer("signs of a chest infection", s.chestInfection()));
        return String.join(", ", parts);
    }

    private static String answer(String what, @Nullable Boolean there) {
        return there == null ? what + " not asked" : (there ? "" : "no ") + what;
    }

    /** What matters most in one line, for tables of rounds. */
    static String brief(Vitals vitals) {
        String spo2 = vitals.spo2Percent() == null
                ? "SpO2 not measured"
                : ("SpO2 " + vitals.spo2Percent() + " % " + vitals.howMeasured()).strip();
        String rate = vitals.respiratoryRatePerMinute() == null
                ? "rate not counted"
                : "rate %d%s"
                        .formatted(
                                vitals.respiratoryRatePerMinute(),
                                vitals.rateSource() == RateSource.HEARD ? " (heard)" : "");
        Integer flow = vitals.peakFlowLitresPerMinute();
        Double kg = vitals.weightKg();
        return spo2 + ", " + rate
                + (flow == null ? "" : ", PEF %d".formatted(flow))
                + (kg == null ? "" : ", %s kg".formatted(Words.number(kg)));
    }
}
