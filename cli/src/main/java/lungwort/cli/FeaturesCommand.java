package lungwort.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import lungwort.BadInput;
import lungwort.audio.RecordingReader;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.FeatureDefinition;
import lungwort.feature.FeatureExtractor;
import lungwort.feature.TimeSpan;
import lungwort.signal.ChestViews;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Lists the feature catalogue, or measures recordings. */
@Command(
        name = "features",
        mixinStandardHelpOptions = true,
        description = {
            "List the features with units and formulas, or, given recordings, measure them: one line of comma-separated values for each window."
        },
        footer = {"", "Examples:", "  lungwort features", "  lungwort features chest.wav > chest.csv"})
@SuppressWarnings("NullAway.Init") // picocli fills the fields
final class FeaturesCommand implements Callable<Integer> {
    @Parameters(paramLabel = "FILE", arity = "0..*", description = "Recordings to measure.")
    private List<Path> files = List.of();

    @Option(names = "--start", paramLabel = "SECONDS", description = "Measure one span from here.")
    private @Nullable Double start;

    @Option(names = "--end", paramLabel = "SECONDS", description = "Measure one span to here.")
    private @Nullable Double end;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        if (files.isEmpty()) {
            if (start != null || end != null) {
                throw new ParameterException(
                        spec.commandLine(), "--start and --end name a span of a recording; name the recording, too");
            }
            list(out, "Features of a segment", FeatureCatalogue.segment());
            list(out, "Features of a recording", FeatureCatalogue.recording());
            out.flush();
            return 0;
        }
        if (start != null && !(start >= 0) || end != null && !(end > (start == null ? 0 : start))) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--start must be 0 or more and lie before --end, not %s and %s"
                            .formatted(start == null ? "the beginning" : start, end == null ? "the end" : end));
        }
        return measure(out);
    }

    /** One bad file among many must not cut the table: its sentence stands beside it. */
    private int measure(PrintWriter out) {
        int exit = 0;
        try {
            CSVPrinter table = new CSVPrinter(out, CSVFormat.RFC4180);
            table.printRecord(header());
            FileNames names = new FileNames(files);
            for (Path file : files) {
                try {
                    measure(table, file, names.of(file));
                } catch (BadInput e) {
                    spec.commandLine().getErr().println("lungwort: " + e.getMessage());
                    spec.commandLine().getErr().flush();
                    exit = Main.EXIT_BAD_INPUT;
                }
            }
            table.flush();
        } catch (IOException e) {
            throw new UncheckedIOException("a writer that remembers its faults throws none", e);
        }
        return exit;
    }

    private static void list(PrintWriter out, String title, FeatureCatalogue catalogue) {
        out.printf(
                "%s (%d, digest %s)%n",
                title, catalogue.size(), catalogue.digest().substring(0, 12));
        for (FeatureDefinition f : catalogue.features()) {
            out.printf("%-44s %-5s %s%n", f.name(), f.unit(), f.formula());
        }
    }

    private static List<Object> header() {
        List<Object> header = new ArrayList<>(List.of("file", "startSeconds", "endSeconds"));
        FeatureCatalogue.segment().features().forEach(f -> header.add(f.name()));
        return header;
    }

    private void measure(CSVPrinter table, Path file, String name) throws IOException {
        ChestViews views = ChestViews.of(RecordingReader.read(file));
        FeatureExtractor extractor = FeatureExtractor.of(views);
        for (TimeSpan span : spans(file, extractor, views.durationSeconds())) {
            List<Object> line = new ArrayList<>();
            line.add(name);
            line.add(String.format(Locale.ROOT, "%.3f", span.startSeconds()));
            line.add(String.format(Locale.ROOT, "%.3f", span.endSeconds()));
            for (float value : extractor.segment(span.startSeconds(), span.endSeconds())) {
                line.add(value);
            }
            table.printRecord(line);
        }
    }

    private List<TimeSpan> spans(Path file, FeatureExtractor extractor, double length) {
        if (start == null && end == null) {
            return extractor.windows();
        }
        double from = start == null ? 0 : start;
        double to = end == null ? length : end;
        // A span may end with the last sample, whose time people round.
        if (from >= length || to <= from || to > length + 0.01) {
            throw new BadInput("%s: there is no span from %s to %s s in it, it is %.3f s long; name times within it."
                    .formatted(file, from, to, length));
        }
        return List.of(new TimeSpan(from, Math.min(to, length)));
    }
}
