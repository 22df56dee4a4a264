package lungwort.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.compare.Clearing;
import lungwort.compare.Comparer;
import lungwort.compare.Comparison;
import lungwort.compare.ComparisonJson;
import lungwort.compare.ComparisonPicture;
import lungwort.compare.ComparisonText;
import lungwort.compare.Relation;
import lungwort.compare.Repeatability;
import lungwort.compare.TakeMeasures;
import lungwort.compare.Usual;
import lungwort.diary.RecordingStore;
import lungwort.examine.Examination;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Puts two takes beside one another, or today's beside the earlier ones, and measures what two takes of the same thing differ by. */
@Command(
        name = "compare",
        mixinStandardHelpOptions = true,
        description = {
            "Compare two takes: levels, spectra, breaths and evidence, and whether they differ by more than two takes of the same thing do.",
            "Bases and sides are usually softer than the top: that alone is not a fault."
        },
        footer = {
            "",
            "Example: lungwort compare back-lower-left.wav back-lower-right.wav --as left-right",
            "Example: lungwort compare before.wav after-cough.wav --as before-after",
            "Example: lungwort compare today.wav --usual monday.wav --usual tuesday.wav --usual wednesday.wav",
            "A difference is no diagnosis, and no difference is no all-clear."
        })
final class CompareCommand implements Callable<Integer> {
    private final Examining examining;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(paramLabel = "FILE", arity = "0..2", description = "Two recordings; with --usual one, of today.")
    private List<Path> files = List.of();

    @Option(
            names = "--as",
            paramLabel = "RELATION",
            description =
                    "How the two stand to one another: before-after, earlier-later, left-right, upper-lower (default: first-second).")
    private String relation = Relation.FIRST_SECOND.id();

    @Option(
            names = "--usual",
            paramLabel = "FILE",
            description = "An earlier take of this person at the same site; give it several times.")
    private List<Path> usual = List.of();

    @Option(names = "--other-device", description = "The takes were made with different devices or settings.")
    private boolean otherDevice;

    @Option(
            names = "--picture",
            paramLabel = "FILE.png",
            description = "Write a picture of the two spectra and the differences.")
    private @Nullable Path picture;

    @Mixin
    private final ChannelOption channel = new ChannelOption();

    @Option(names = "--json", description = "Print JSON instead of text.")
    private boolean json;

    @Option(
            names = "--model",
            paramLabel = "FILE",
            description = "Use this model instead of the one that comes with Lungwort.")
    private @Nullable Path model;

    @Option(
            names = "--measure-repeatability",
            paramLabel = "DIR",
            description =
                    "Measure on SPRSound in this folder what two takes of the same thing differ by, and print the figures.")
    private @Nullable Path database;

    CompareCommand(Examining examining) {
        this.examining = examining;
    }

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        if (database != null) {
            requireFiles(files.isEmpty() && usual.isEmpty(), "--measure-repeatability takes no recordings.");
            ProgressLine progress =
                    new ProgressLine(Objects.requireNonNull(spec).commandLine().getErr());
            out.println(RepeatabilityFigures.measure(database, examining.with(model), progress));
            progress.done();
        } else if (usual.isEmpty()) {
            requireFiles(files.size() == 2, "Name two recordings, or one with --usual.");
            compareTwo(out);
        } else {
            requireFiles(files.size() == 1, "With --usual name one recording, today's.");
            requireFiles(
                    picture == null && relation.equals(Relation.FIRST_SECOND.id()),
                    "--picture and --as are for two recordings side by side; leave them out with --usual.");
            compareWithUsual(out);
        }
        out.flush();
        return 0;
    }

    private void requireFiles(boolean right, String sentence) {
        if (!right) {
            throw new ParameterException(Objects.requireNonNull(spec).commandLine(), sentence);
        }
    }

    /** Files that hold the same bytes as one named before them: that those do not differ would read as if nothing had changed. */
    private List<String> same() {
        Map<String, Path> seen = new HashMap<>();
        List<String> same = new ArrayList<>();
        for (Path file : Stream.concat(files.stream(), usual.stream()).toList()) {
            Path before = seen.putIfAbsent(hash(file), file);
            if (before != null) {
                same.add(
                        "%s and %s hold the very same recording: that it does not differ from itself says nothing of the chest. Name the one that was made at the other time or place."
                                .formatted(before, file));
            }
        }
        return same;
    }

    private static String hash(Path file) {
        try {
            return RecordingStore.hashOf(Files.readAllBytes(file));
        } catch (IOException e) {
            throw new BadInput("%s: it cannot be read; check its permissions.".formatted(file), e);
        }
    }

    private record Taken(Examination examination, TakeMeasures measures) {}

    private FileNames names() {
        return new FileNames(Stream.concat(files.stream(), usual.stream()).toList());
    }

    private Taken take(Path file, FileNames names, Function<Recording, Examination> examine) {
        Recording recording = RecordingReader.read(file, channel.reading());
        Examination read = examine.apply(recording);
        Examination examination = names.shared(file) ? read.titled(names.of(file)) : read;
        return new Taken(examination, TakeMeasures.of(recording, examination));
    }

    private void compareTwo(PrintWriter out) {
        Relation how = Relation.ofId(relation);
        Repeatability repeatability = Repeatability.shipped();
        Function<Recording, Examination> examine = examining.with(model);
        FileNames names = names();
        Taken first = take(files.get(0), names, examine);
        Taken second = take(files.get(1), names, examine);
        Comparison comparison =
                new Comparer(repeatability).compare(first.measures(), second.measures(), how, !otherDevice);
        List<Clearing> clearings = how == Relation.BEFORE_AFTER
                ? Clearing.of(first.examination(), second.examination(), repeatability)
                : List.of();
        if (picture != null) {
            ComparisonPicture.write(comparison, picture);
        }
        if (json) {
            ObjectNode node = ComparisonJson.toJson(comparison);
            node.set("clearing", ComparisonJson.toJson(clearings));
            node.put("repeatabilityMade", repeatability.made());
            node.put("sameRecording", !same().isEmpty());
            out.println(Json.pretty(node));
        } else {
            same().forEach(out::println);
            ComparisonText.print(comparison, clearings, out);
            cautions(out);
        }
    }

    private void compareWithUsual(PrintWriter out) {
        Function<Recording, Examination> examine = examining.with(model);
        FileNames names = names();
        TakeMeasures today = take(files.get(0), names, examine).measures();
        List<TakeMeasures> earlier = usual.stream()
                .map(file -> take(file, names, examine).measures())
                .toList();
        List<Usual> compared = Usual.of(today, earlier, !otherDevice, Repeatability.shipped());
        if (json) {
            ObjectNode node = Json.object();
            node.put("today", today.name()).put("earlierTakes", earlier.size());
            node.put("enough", earlier.size() >= Usual.ENOUGH_TAKES);
            node.put("sameRecording", !same().isEmpty());
            node.set("measures", ComparisonJson.usual(compared));
            node.put("caution", Comparison.CAUTION);
            out.println(Json.pretty(node));
        } else {
            same().forEach(out::println);
            ComparisonText.printUsual(compared, earlier.size(), out);
            cautions(out);
        }
    }

    private static void cautions(PrintWriter out) {
        out.println(
                "What two takes of the same thing differ by was measured on children and one kind of stethoscope (SPRSound).");
        out.println(Comparison.CAUTION);
    }
}
