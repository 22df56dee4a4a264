package lungwort.cli;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import lungwort.BadInput;
import lungwort.output.OutputFile;
import lungwort.output.OutputKind;
import lungwort.score.AloneAnswer;
import lungwort.score.CrossValidation;
import lungwort.score.EventPrediction;
import lungwort.score.RecordingPrediction;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/**
 * Every single answer behind the figures of a score, as two tables (RFC 4180): {@value #RECORDINGS} and {@value #EVENTS}. From them the figures can be computed again by other means, and errors looked up
 * one by one. Rows come in the order of the recordings' names; probabilities are written so that reading gives the same number.
 */
final class AnswerTables {
    static final String RECORDINGS = "recordings.csv";
    static final String EVENTS = "events.csv";

    private static final OutputKind TABLE = new OutputKind("a table of answers", "recording,");

    private AnswerTables() {}

    /** @throws BadInput if the folder cannot be made or written to; called before long work is begun */
    static void check(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw unwritable(folder, e);
        }
        OutputFile.check(folder.resolve(RECORDINGS), TABLE);
        OutputFile.check(folder.resolve(EVENTS), TABLE);
    }

    static void write(Path folder, CrossValidation.Result answers) {
        write(folder.resolve(RECORDINGS), recordings(answers.recordings()));
        write(folder.resolve(EVENTS), events(answers.events()));
    }

    private static void write(Path file, String table) {
        OutputFile.write(file, TABLE, table.getBytes(StandardCharsets.UTF_8));
    }

    private static BadInput unwritable(Path folder, IOException e) {
        return new BadInput(
                "%s: the answers cannot be written there (%s); choose a folder that you may write to."
                        .formatted(folder, e.getMessage()),
                e);
    }

    private static String recordings(List<RecordingPrediction> recordings) {
        return table(
                List.of(
                        "recording",
                        "patient",
                        "device",
                        "label",
                        "verdict",
                        "called",
                        "continuous",
                        "discontinuous",
                        "poor_quality",
                        "alone_continuous",
                        "alone_discontinuous",
                        "alone_poor_quality",
                        "alone_suggestion",
                        "alone_refused"),
                printer -> {
                    for (RecordingPrediction r : sorted(recordings, RecordingPrediction::recording)) {
                        AloneAnswer alone = r.alone();
                        printer.printRecord(
                                r.recording(),
                                r.patient(),
                                r.device(),
                                r.truth(),
                                r.verdict(),
                                r.called(),
                                r.continuous(),
                                r.discontinuous(),
                                r.poorQuality(),
                                alone.continuous(),
                                alone.discontinuous(),
                                alone.poorQuality(),
                                alone.suggestion().id(),
                                alone.refused());
                    }
                });
    }

    private static String events(List<EventPrediction> events) {
        return table(
                List.of(
                        "recording",
                        "event",
                        "patient",
                        "device",
                        "label",
                        "adventitious",
                        "called",
                        "continuous",
                        "discontinuous"),
                printer -> {
                    Map<String, Integer> numbers = new HashMap<>();
                    for (EventPrediction e : sorted(events, EventPrediction::recording)) {
                        printer.printRecord(
                                e.recording(),
                                numbers.merge(e.recording(), 1, Integer::sum),
                                e.patient(),
                                e.device(),
                                e.truth(),
                                e.calledAdventitious(),
                                e.called(),
                                e.continuous(),
                                e.discontinuous());
                    }
                });
    }

    /** Folds answer in their own order; the events of one recording stay as they were annotated. */
    private static <T> List<T> sorted(List<T> rows, Function<T, String> name) {
        return rows.stream().sorted(Comparator.comparing(name)).toList();
    }

    private static String table(List<String> columns, Rows rows) {
        StringWriter out = new StringWriter();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader(columns.toArray(String[]::new))
                .get();
        try (CSVPrinter printer = new CSVPrinter(out, format)) {
            rows.print(printer);
        } catch (IOException e) {
            throw new UncheckedIOException("a table in memory cannot fail", e);
        }
        return out.toString();
    }

    private interface Rows {
        void print(CSVPrinter printer) throws IOException;
    }
}
