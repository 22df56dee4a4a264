package lungwort.score;

import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A {@link ScoreReport} as tables for people, with published figures beside ours. */
public final class ScoreText {
    /** Digits of a digest that are printed; the JSON holds them all. */
    private static final int DIGITS = 16;

    private ScoreText() {}

    /** The whole report, and in its last line what it was made of and with; lines end with a newline. */
    public static String of(ScoreReport report, Provenance provenance) {
        return of(report) + madeWith(provenance);
    }

    private static String madeWith(Provenance provenance) {
        Provenance.Data too = provenance.learntFromToo();
        return "Made with Lungwort %s, Java %s (%s). SHA-256 of the %s %s, annotations %s, audio %s%s; altered: %s.\n"
                .formatted(
                        provenance.version(),
                        provenance.java(),
                        provenance.processor(),
                        provenance.answeredBy().kind(),
                        shortened(provenance.answeredBy().sha256()),
                        shortened(provenance.scored().annotations()),
                        shortened(provenance.scored().audio()),
                        too == null
                                ? ""
                                : ", learnt from too %s, %s"
                                        .formatted(shortened(too.annotations()), shortened(too.audio())),
                        provenance.altered());
    }

    private static String shortened(String digest) {
        return digest.substring(0, DIGITS) + "..";
    }

    /** The figures alone. */
    public static String of(ScoreReport report) {
        StringBuilder text = new StringBuilder();
        head(text, report);
        tasks(text, report);
        areas(text, report);
        devices(text, report);
        calibration(text, report);
        alone(text, report.alone());
        detection(text, report);
        report.confusions()
                .forEach((task, confusion) ->
                        line(text, "\nTask %s", title(task)).append(confusion.toText()));
        published(text, report);
        line(
                text,
                "\nIntervals are 95 %% percentile intervals from %d resamples of patients (seed %d).",
                report.resamples(),
                report.seed());
        return text.toString();
    }

    private static void head(StringBuilder text, ScoreReport report) {
        line(text, "%s, split %s, %s", report.database().title(), report.split(), report.model());
        line(text, "%d recordings, %d events, %d patients", report.recordings(), report.events(), report.patients());
        if (report.leftOutRecordings() > 0) {
            line(
                    text,
                    "LEFT OUT: %d recordings of this split, whose audio is not there. These figures are not those of the whole split.",
                    report.leftOutRecordings());
        }
    }

    private static void tasks(StringBuilder text, ScoreReport report) {
        if (report.tasks().isEmpty()) {
            return;
        }
        line(text, "\n%-24s%8s%8s%8s%8s%8s   %s", "task", "SE", "SP", "AS", "HS", "score", "95 % interval");
        report.tasks().forEach((name, figures) -> {
            TaskScore score = figures.value();
            line(
                    text,
                    "%-24s%8s%8s%8s%8s%8s   %s",
                    title(name),
                    number(score.sensitivity()),
                    number(score.specificity()),
                    number(score.averageScore()),
                    number(score.harmonicScore()),
                    number(ScoreReport.headline(name, score)),
                    interval(ScoreReport.headline(name, figures)));
        });
    }

    private static void areas(StringBuilder text, ScoreReport report) {
        line(text, "\n%-32s%8s   %s", "ROC area", "value", "95 % interval");
        figures(text, "events, ", report.eventAuc());
        figures(text, "recordings, ", report.recordingAuc());
    }

    private static void figures(StringBuilder text, String prefix, Map<String, Figure> figures) {
        figures.forEach((name, figure) ->
                line(text, "%-32s%8s   %s", prefix + plain(name), number(figure.value()), interval(figure.ci95())));
    }

    private static void devices(StringBuilder text, ScoreReport report) {
        if (report.devices().size() < 2) {
            return;
        }
        line(
                text,
                "\n%-16s%12s%8s   %-26s%s",
                "ROC area by device",
                "recordings",
                "events",
                "continuous",
                "discontinuous");
        for (ScoreReport.DeviceFigures device : report.devices()) {
            line(
                    text,
                    "%-18s%10d%8d   %-26s%s",
                    device.device(),
                    device.recordings(),
                    device.events(),
                    number(device.continuous().value()) + " "
                            + interval(device.continuous().ci95()),
                    number(device.discontinuous().value()) + " "
                            + interval(device.discontinuous().ci95()));
        }
    }

    private static void calibration(StringBuilder text, ScoreReport report) {
        line(text, "\nExpected calibration error, %d bins", Calibration.DEFAULT_BINS);
        report.calibration().forEach((name, error) -> line(text, "%-32s%8s", plain(name), number(error)));
    }

    private static void alone(StringBuilder text, AloneFigures figures) {
        line(text, "\n%-54s%8s   %s", "one recording alone, as it is answered at home", "share", "95 % interval");
        figures.shares()
                .forEach(share -> line(
                        text,
                        "%-54s%8s   %s",
                        share.words(),
                        number(share.figure().value()),
                        interval(share.figure().ci95())));
        figures(text, "ROC area, ", figures.auc());
        line(
                text,
                "\n%-24s%8s%10s%8s%8s%8s%8s",
                "risk where only the surest are answered",
                "area",
                "50 %",
                "70 %",
                "80 %",
                "90 %",
                "100 %");
        figures.riskCoverage()
                .forEach((name, curve) -> line(
                        text,
                        "%-24s%23s%10s%8s%8s%8s%8s",
                        name,
                        number(curve.area()),
                        number(curve.riskAt(0.5)),
                        number(curve.riskAt(0.7)),
                        number(curve.riskAt(0.8)),
                        number(curve.riskAt(0.9)),
                        number(curve.riskAt(1))));
    }

    private static void detection(StringBuilder text, ScoreReport report) {
        report.detection().forEach((name, figures) -> {
            line(text, "\nEvents found without help, matched by %s: %s", name, figures.rule());
            line(text, "%-24s%10s%8s%9s%8s   %s", "class", "annotated", "found", "matched", "F", "95 % interval");
            figures.byKind().forEach((kind, counts) -> countsRow(text, kind, counts, ""));
            countsRow(text, "all", figures.counts(), interval(figures.f().ci95()));
        });
    }

    private static void countsRow(StringBuilder text, String name, EventMatching.Counts counts, String interval) {
        line(
                text,
                "%-24s%10d%8d%9d%8s   %s",
                name,
                counts.annotated(),
                counts.found(),
                counts.matched(),
                number(counts.f()),
                interval);
    }

    private static void published(StringBuilder text, ScoreReport report) {
        List<PublishedFigure> figures = PublishedFigure.of(report.database()).stream()
                .filter(f -> report.tasks().containsKey(f.task())
                        || f.task().equals(DetectionFigures.TASK)
                                && !report.detection().isEmpty())
                .toList();
        if (figures.isEmpty()) {
            return;
        }
        line(
                text,
                "\nPublished scores on official test sets (%s)",
                report.comparable() ? "on this one" : "not on what was scored here, so only for orientation");
        figures.forEach(f -> line(text, "%-24s%8s   %s; %s", title(f.task()), number(f.score()), f.what(), f.seen()));
    }

    private static String title(String task) {
        return switch (task) {
            case ScoreReport.ICBHI_TASK -> "4 classes of cycles";
            case DetectionFigures.TASK -> "events found, F";
            default -> task;
        };
    }

    /** {@code recording.poorQuality} to {@code recording, poor quality}. */
    private static String plain(String name) {
        return name.replace(".", ", ").replace("poorQuality", "poor quality");
    }

    private static String number(double value) {
        return Double.isNaN(value) ? "-" : String.format(Locale.ROOT, "%.4f", value);
    }

    private static String interval(Interval interval) {
        return Double.isNaN(interval.low())
                ? "-"
                : String.format(Locale.ROOT, "%.4f to %.4f", interval.low(), interval.high());
    }

    private static StringBuilder line(StringBuilder text, String format, Object... values) {
        return text.append(String.format(Locale.ROOT, format, values).stripTrailing())
                .append('\n');
    }
}
