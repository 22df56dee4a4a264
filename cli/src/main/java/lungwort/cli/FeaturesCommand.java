package lungwort.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
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
            list(out, "Features of a segment", FeatureCatalogue.segment());
            list(out, "Features of a recording", FeatureCatalogue.recording());
        } else {
            header(out);
            files.forEach(file -> measure(out, file));
        }
        out.flush();
        return 0;
    }

    private static void list(PrintWriter out, String title, FeatureCatalogue catalogue) {
        out.printf(
                "%s (%d, digest %s)%n",
                title, catalogue.size(), catalogue.digest().substring(0, 12));
        for (FeatureDefinition f : catalogue.features()) {
            out.printf("%-44s %-5s %s%n", f.name(), f.unit(), f.formula());
        }
    }

    private static void header(PrintWriter out) {
        out.print("file,startSeconds,endSeconds");
        FeatureCatalogue.segment().features().forEach(f -> out.print("," + f.name()));
        out.println();
    }

    private void measure(PrintWriter out, Path file) {
        ChestViews views = ChestViews.of(RecordingReader.read(file));
        FeatureExtractor extractor = FeatureExtractor.of(views);
        for (TimeSpan span : spans(file, extractor, views.durationSeconds())) {
            StringBuilder line = new StringBuilder(quoted(file.getFileName().toString()));
            line.append(String.format(Locale.ROOT, ",%.3f,%.3f", span.startSeconds(), span.endSeconds()));
            for (float value : extractor.segment(span.startSeconds(), span.endSeconds())) {
                line.append(',').append(value);
            }
            out.println(line);
        }
    }

    private List<TimeSpan> spans(Path file, FeatureExtractor extractor, double length) {
        if (start == null && end == null) {
            return extractor.windows();
        }
        double from = start == null ? 0 : start;
        double to = end == null ? length : end;
        if (!(from >= 0 && to > from)) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--start must be 0 or more and lie before --end, not %s and %s".formatted(from, to));
        }
        // A span may end with the last sample, whose time people round.
        if (from >= length || to > length + 0.01) {
            throw new BadInput("%s: there is no span from %s to %s s in it, it is %.3f s long; name times within it."
                    .formatted(file, from, to, length));
        }
        return List.of(new TimeSpan(from, Math.min(to, length)));
    }

    private static String quoted(String text) {
        return text.matches("[^,\"\n\r]*") ? text : '"' + text.replace("\"", "\"\"") + '"';
    }
}
