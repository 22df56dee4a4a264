package lungwort.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import lungwort.BadInput;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.examine.Examination;
import lungwort.examine.Examiner;
import lungwort.json.ExaminationJson;
import lungwort.json.Json;
import lungwort.picture.Pictures;
import lungwort.practice.PracticeScenes;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Examines recordings: files, folders, or the built-in demonstration. */
@Command(
        name = "examine",
        mixinStandardHelpOptions = true,
        description =
                "Examine recordings of a chest: what each one suggests, on what evidence, and whether it can be judged at all.",
        footer = {
            "",
            "Example: lungwort examine back-lower-left.wav --picture back-lower-left.png",
            "It suggests, it does not diagnose; no extra sound found is not the same as well."
        })
final class ExamineCommand implements Callable<Integer> {
    @Spec
    @SuppressWarnings("NullAway.Init") // picocli sets it before call()
    private CommandSpec spec;

    @Parameters(
            paramLabel = "FILE",
            arity = "0..*",
            description = "Recordings (WAV, FLAC, M4A, MP3, Ogg, Opus, WebM), or folders that hold them.")
    private List<Path> paths = List.of();

    @Option(names = "--demo", description = "Examine synthesised recordings of invented people, one of each kind.")
    private boolean demo;

    @Option(names = "--json", description = "Print a JSON array instead of text.")
    private boolean json;

    @Option(
            names = "--picture",
            paramLabel = "FILE.png",
            description =
                    "Write a picture of the spectrogram, the evidence and the breaths; with several recordings, a folder to write one each into.")
    private @Nullable Path picture;

    @Mixin
    private final ChannelOption channel = new ChannelOption();

    @Option(
            names = "--model",
            paramLabel = "FILE",
            description = "Use this model instead of the one that comes with Lungwort.")
    private @Nullable Path model;

    @Override
    public Integer call() {
        if (demo == !paths.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(), "Name at least one recording, or --demo for the built-in ones.");
        }
        Examiner examiner = new Examiner(model == null ? ShippedModel.model() : GivenModel.read(model));
        List<Source> sources = sources();
        List<Outcome> outcomes = Work.inOrder(sources, "examining", source -> examine(examiner, source));
        print(outcomes);
        return outcomes.stream().anyMatch(o -> o.error() != null) ? Main.EXIT_BAD_INPUT : 0;
    }

    private List<Source> sources() {
        List<Source> sources = new ArrayList<>();
        if (demo) {
            PracticeScenes.all()
                    .forEach(one -> sources.add(new Source(one.id(), () -> Demo.recording(one), null, null)));
        } else {
            ReadingOptions options = channel.reading();
            List<Path> files = AudioFiles.expand(paths);
            FileNames names = new FileNames(files);
            files.forEach(file -> sources.add(new Source(
                    file.toString(),
                    () -> RecordingReader.read(file, options),
                    names.shared(file) ? names.of(file) : null,
                    null)));
        }
        return picture == null ? sources : withPictures(sources, picture);
    }

    private static List<Source> withPictures(List<Source> sources, Path picture) {
        List<Path> targets =
                Pictures.targets(picture, sources.stream().map(Source::name).toList());
        return IntStream.range(0, targets.size())
                .mapToObj(i -> sources.get(i).pictured(targets.get(i)))
                .toList();
    }

    /** One bad file among many must not hide the others: its sentence stands in its place. */
    private Outcome examine(Examiner examiner, Source source) {
        try {
            Recording recording = source.recording().get();
            Examination examination = examiner.examine(recording);
            return new Outcome(
                    source.title() == null ? examination : examination.titled(source.title()),
                    notPictured(examination, recording, source.picture()));
        } catch (BadInput e) {
            return new Outcome(null, e.getMessage());
        } catch (OutOfMemoryError e) {
            return new Outcome(null, Memory.sentence(source.name()));
        }
    }

    /** Why there is no picture, or null: what was heard is told all the same. */
    private static @Nullable String notPictured(Examination examination, Recording recording, @Nullable Path picture) {
        if (picture == null) {
            return null;
        }
        try {
            Pictures.write(examination, recording, picture);
            return null;
        } catch (BadInput e) {
            return e.getMessage();
        }
    }

    private void print(List<Outcome> outcomes) {
        PrintWriter out = spec.commandLine().getOut();
        List<Examination> examinations = new ArrayList<>();
        for (Outcome outcome : outcomes) {
            if (outcome.examination() != null) {
                examinations.add(outcome.examination());
            }
        }
        if (json) {
            out.println(Json.pretty(ExaminationJson.toJson(examinations)));
        } else {
            examinations.forEach(examination -> ExaminationText.print(examination, out));
            if (!examinations.isEmpty()) {
                out.println(Examination.CAUTION);
            }
        }
        out.flush();
        PrintWriter err = spec.commandLine().getErr();
        for (Outcome outcome : outcomes) {
            if (outcome.error() != null) {
                err.println("lungwort: " + outcome.error());
            }
        }
        err.flush();
    }

    /**
     * What is examined.
     *
     * @param name for sentences about it
     * @param title what its examination is called where the recording's own name does not tell which it is; null elsewhere
     * @param picture where its picture goes; null for none
     */
    private record Source(
            String name,
            Supplier<Recording> recording,
            @Nullable String title,
            @Nullable Path picture) {
        Source pictured(Path target) {
            return new Source(name, recording, title, target);
        }
    }

    private record Outcome(
            @Nullable Examination examination, @Nullable String error) {}
}
