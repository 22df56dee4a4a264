package lungwort.cli;

import java.util.List;
import java.util.Map;
import java.util.function.Function;
import lungwort.dataset.DatabaseCounts;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.DatabaseSummary;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;

/** A summary of a database as tables for people. */
final class DatasetText {
    private static final int NAME_WIDTH = 22;
    private static final int NUMBER_WIDTH = 10;

    private final DatabaseSummary summary;
    private final StringBuilder text = new StringBuilder();

    private DatasetText(DatabaseSummary summary) {
        this.summary = summary;
    }

    static String of(DatabaseSummary summary) {
        DatasetText text = new DatasetText(summary);
        text.line(
                "%s in %s",
                summary.database().kind().title(), summary.database().folder());
        text.line("%s", use(summary.database().kind()));
        text.overview();
        text.labels();
        text.where();
        text.agesAndDigests();
        text.compared();
        return text.text.toString();
    }

    private static String use(DatabaseKind kind) {
        return switch (kind) {
            case SPRSOUND ->
                "Children, one stethoscope. Its licence text is GPL-3.0: a model trained on it may be given to others.";
            case ICBHI ->
                "Adults and children, four devices. Free for research only: score with it, but give no model trained on it to others.";
        };
    }

    private void overview() {
        row("", part -> part.split().id());
        row("recordings", part -> Integer.toString(part.recordings()));
        row("  with audio", part -> Integer.toString(part.withAudio()));
        row("patients", part -> Integer.toString(part.patients()));
        row(eventWord(), part -> Integer.toString(part.events()));
        row("audio, hours", part -> "%.2f".formatted(part.audioSeconds() / 3600));
    }

    private String eventWord() {
        return summary.database().kind() == DatabaseKind.ICBHI ? "breath cycles" : "events";
    }

    private void labels() {
        line("");
        line("%s by label", eventWord());
        for (EventLabel label : EventLabel.values()) {
            rowOfCounts("  " + label.id(), part -> part.eventLabels().getOrDefault(label, 0));
        }
        line("recordings by label");
        for (RecordingLabel label : RecordingLabel.values()) {
            rowOfCounts("  " + label.id(), part -> part.recordingLabels().getOrDefault(label, 0));
        }
    }

    private void where() {
        line("recordings by site");
        names(DatabaseSummary.Part::sites)
                .forEach(name -> rowOfCounts("  " + name, part -> part.sites().getOrDefault(name, 0)));
        line("recordings by device");
        names(DatabaseSummary.Part::devices)
                .forEach(name -> rowOfCounts("  " + name, part -> part.devices().getOrDefault(name, 0)));
    }

    private List<String> names(Function<DatabaseSummary.Part, ? extends Map<String, Integer>> counts) {
        return summary.parts().stream()
                .flatMap(part -> counts.apply(part).keySet().stream())
                .distinct()
                .sorted()
                .toList();
    }

    private void agesAndDigests() {
        DatabaseSummary.Ages ages = summary.ages();
        line("");
        if (Double.isNaN(ages.medianYears())) {
            line("ages: unknown");
        } else {
            line(
                    "ages: %.1f to %.1f years, median %.1f; unknown: %d patients",
                    ages.youngestYears(), ages.oldestYears(), ages.medianYears(), ages.unknown());
        }
        summary.parts().forEach(part -> line("digest of %s: %s", part.split().id(), part.digest()));
    }

    private void compared() {
        line("");
        line(
                "%d of %d counts are those of the complete release.",
                summary.counts().stream().filter(DatabaseCounts::agrees).count(),
                summary.counts().size());
        summary.database().warnings().forEach(warning -> line("warning: %s", warning));
    }

    /** Nothing is printed where no part has any. */
    private void rowOfCounts(String name, Function<DatabaseSummary.Part, Integer> count) {
        if (summary.parts().stream().anyMatch(part -> count.apply(part) > 0)) {
            row(name, part -> Integer.toString(count.apply(part)));
        }
    }

    private void row(String name, Function<DatabaseSummary.Part, String> cell) {
        StringBuilder row = new StringBuilder(("%-" + NAME_WIDTH + "s").formatted(name));
        summary.parts().forEach(part -> row.append(("%" + NUMBER_WIDTH + "s").formatted(cell.apply(part))));
        line("%s", row);
    }

    private void line(String format, Object... values) {
        text.append(format.formatted(values).stripTrailing()).append('\n');
    }
}
