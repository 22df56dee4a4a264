package lungwort.report;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import lungwort.classify.HeardEvent;
import lungwort.diary.Measures;
import lungwort.examine.BreathingPause;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.guidance.Condition;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vital;
import lungwort.guidance.Vitals;
import lungwort.picture.Words;
import lungwort.round.RoundView;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;

/** The report as a table, RFC 4180: one measure a row, so that nothing hides in a cell. A row without a value was not measured. */
final class CsvReport {
    private static final CSVFormat FORMAT = CSVFormat.RFC4180
            .builder()
            .setHeader(
                    "person",
                    "age_months",
                    "round",
                    "round_started",
                    "take",
                    "site",
                    "take_reason",
                    "kind",
                    "measure",
                    "value",
                    "unit",
                    "start_seconds",
                    "end_seconds",
                    "phase",
                    "made_by")
            .get();

    private final ReportContent content;
    private final CSVPrinter printer;

    private CsvReport(ReportContent content, CSVPrinter printer) {
        this.content = content;
        this.printer = printer;
    }

    static String write(ReportContent content) {
        StringWriter out = new StringWriter();
        try (CSVPrinter printer = new CSVPrinter(out, FORMAT)) {
            CsvReport report = new CsvReport(content, printer);
            for (ReportRound round : content.rounds()) {
                report.round(round);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    private void round(ReportRound round) throws IOException {
        RoundView view = round.view();
        Set<String> asked = new TreeSet<>(view.round().dangerSigns().yes());
        asked.addAll(view.round().dangerSigns().no());
        for (String id : asked) {
            String answer = view.round().dangerSigns().yes().contains(id) ? "yes" : "no";
            row(view, null, "danger sign", id, answer, "", "", "", "", "person");
        }
        for (var sign : view.dangerSignsOpen()) {
            row(view, null, "danger sign", sign.id(), "not answered", "", "", "", "", "person");
        }
        for (Vital vital : Vital.values()) {
            Double value = view.vitals().value(vital);
            if (vital.entered()) {
                boolean heard = vital == Vital.RESPIRATORY_RATE
                        && view.vitals().rateSource() == lungwort.guidance.RateSource.HEARD;
                row(
                        view,
                        null,
                        "vital sign",
                        vital.id(),
                        value == null ? "" : Vital.number(value),
                        vital.unit(),
                        "",
                        "",
                        "",
                        heard ? "software" : "person");
            }
        }
        answers(view);
        for (Condition condition : view.person().conditions().known()) {
            row(view, null, "condition", condition.id(), "yes", "", "", "", "", "person");
        }
        row(view, null, "next step", "outcome", round.step().outcome().id(), "", "", "", "", "guidance");
        for (ReportTake take : round.takes()) {
            measure(view, take, "added at", take.take().recordedAt().toString(), "", "");
            measure(view, take, "SHA-256 of the recording", take.take().recordingSha256(), "", "");
            measure(view, take, "breath clearly heard", yesNo(take.take().breathHeard()), "", "listener");
            if (take.take().knownToClinician()) {
                measure(view, take, "a clinician calls it usual for this person", "yes", "", "listener");
            }
            Examination e = take.take().examination().orElse(null);
            if (e != null) {
                take(view, take, e);
            }
        }
    }

    /** What was asked beside the danger signs, by the names of the command's options; without a value where it was not. */
    private void answers(RoundView view) throws IOException {
        Vitals v = view.vitals();
        Symptoms s = view.round().symptoms();
        answer(view, "on-oxygen", yesNo(v.onOxygen()));
        answer(view, "asleep", yesNo(v.asleep()));
        answer(
                view,
                "consciousness",
                v.consciousness() == null ? "" : v.consciousness().id());
        answer(
                view,
                "breathless",
                s.breathlessness() == null ? "" : s.breathlessness().id());
        answer(view, "chest-pain", yesNo(s.chestPain()));
        answer(view, "fever", yesNo(s.fever()));
        answer(view, "chest-infection", yesNo(s.chestInfection()));
        answer(view, "seen", safe(view.round().symptomWords()));
        answer(view, "medicines", safe(view.round().medicines()));
    }

    private void answer(RoundView view, String name, String value) throws IOException {
        row(view, null, "answer", name, value, "", "", "", "", "person");
    }

    private static String yesNo(@Nullable Boolean answer) {
        return answer == null ? "" : answer ? "yes" : "no";
    }

    private void take(RoundView view, ReportTake take, Examination e) throws IOException {
        Measures m = Measures.of(e);
        String model = e.model();
        measure(view, take, "suggestion", e.suggestion().id(), "", model);
        measure(view, take, "usable", Boolean.toString(e.quality().usable()), "", model);
        measure(view, take, "unlike what the model learnt from", Boolean.toString(e.unlikeLearnt()), "", model);
        String continuous =
                e.tellsProbability(true) ? decimals(e.probabilities().continuous()) : "";
        String crackles = e.tellsProbability(false) ? decimals(e.probabilities().discontinuous()) : "";
        measure(view, take, "probability continuous", continuous, "", model);
        measure(view, take, "probability crackles", crackles, "", model);
        measure(
                view,
                take,
                "probability poor quality",
                decimals(e.probabilities().poorQuality()),
                "",
                model);
        measure(view, take, "duration", decimals(e.durationSeconds()), "s", model);
        measure(view, take, "breaths", Integer.toString(e.breathing().breaths().size()), "", model);
        measure(view, take, "rate heard", decimals(m.ratePerMinute()), "breaths a minute", model);
        measure(
                view,
                take,
                "longest stretch without a breath",
                decimals(e.longestPause().map(BreathingPause::seconds).orElse(null)),
                "s",
                model);
        if (e.longestPause().filter(p -> p.cut() != BreathingPause.Cut.NONE).isPresent()) {
            measure(view, take, "the recording cuts that stretch, so it lasted at least so long", "true", "", model);
        }
        if (take.take().breathingStopped() != null) {
            measure(
                    view,
                    take,
                    "the breathing stopped by itself there",
                    Boolean.toString(take.take().breathingStopped()),
                    "",
                    "listener");
        }
        measure(
                view,
                take,
                "wheeze share",
                e.tellsNumber(true) ? decimals(m.wheezeShare()) : "",
                "share of the time",
                model);
        measure(
                view,
                take,
                "crackles a breath",
                e.tellsNumber(false) ? decimals(m.cracklesPerBreath()) : "",
                "",
                model);
        measure(view, take, "dominant frequency", e.tellsNumber(true) ? decimals(m.dominantHz()) : "", "Hz", model);
        for (HeardEvent event : e.events()) {
            heard(view, take, event, model);
        }
        // What is measured in a refused recording says nothing of the chest.
        for (Evidence evidence : e.quality().usable() ? e.evidence() : List.<Evidence>of()) {
            evidence(view, take, evidence, model);
        }
    }

    private void heard(RoundView view, ReportTake take, HeardEvent event, String model) throws IOException {
        row(
                view,
                take,
                "heard",
                event.continuous() ? "continuous sound, probability" : "crackles, probability",
                decimals(event.probability()),
                "",
                decimals(event.startSeconds()),
                decimals(event.endSeconds()),
                "",
                model);
    }

    private void evidence(RoundView view, ReportTake take, Evidence evidence, String model) throws IOException {
        boolean tone = evidence.sound() instanceof ContinuousSound;
        double value = evidence.sound() instanceof ContinuousSound sound
                ? sound.dominantHz()
                : evidence.sound() instanceof Crackle crackle ? crackle.twoCycleDurationMs() : Double.NaN;
        row(
                view,
                take,
                "evidence",
                Words.kind(evidence.sound().kind()) + (tone ? ", dominant frequency" : ", two-cycle duration"),
                decimals(value),
                tone ? "Hz" : "ms",
                decimals(evidence.sound().startSeconds()),
                decimals(evidence.sound().endSeconds()),
                evidence.phase().name().toLowerCase(Locale.ROOT),
                model);
    }

    private void measure(RoundView view, ReportTake take, String name, String value, String unit, String model)
            throws IOException {
        row(view, take, "take", name, value, unit, "", "", "", model);
    }

    private void row(
            RoundView view,
            @Nullable ReportTake take,
            String kind,
            String measure,
            String value,
            String unit,
            String start,
            String end,
            String phase,
            String madeBy)
            throws IOException {
        printer.printRecord(
                safe(content.person().nickname()),
                view.age().months(),
                view.round().id(),
                view.round().startedAt(),
                take == null ? "" : take.tag(),
                take == null ? "" : take.take().site().id(),
                take == null ? "" : take.take().reason().id(),
                kind,
                measure,
                value,
                unit,
                start,
                end,
                phase,
                safe(madeBy));
    }

    /** A spreadsheet runs text that begins like a formula: an apostrophe in front makes it text (OWASP, CSV injection). */
    static String safe(String text) {
        return text.matches("(?s)[=+\\-@\\t\\r\\n].*") ? "'" + text : text;
    }

    private static String decimals(@Nullable Double value) {
        return value == null || value.isNaN() ? "" : "%.4f".formatted(value).replaceFirst("\\.?0+$", "");
    }
}
