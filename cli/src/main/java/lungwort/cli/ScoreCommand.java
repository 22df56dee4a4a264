package lungwort.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.classify.SoundModel;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Databases;
import lungwort.decode.CodecRow;
import lungwort.output.OutputFile;
import lungwort.output.OutputKind;
import lungwort.score.AlterationRow;
import lungwort.score.CrossValidation;
import lungwort.score.PatientBootstrap;
import lungwort.score.Provenance;
import lungwort.score.Recipe;
import lungwort.score.ScoreJson;
import lungwort.score.ScoreReport;
import lungwort.score.ScoreText;
import lungwort.score.Scorer;
import lungwort.score.SoundChange;
import lungwort.score.Trainer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Scores a model, or a recipe by cross-validation. */
@Command(
        name = "score",
        mixinStandardHelpOptions = true,
        description = {
            "Score a model on a public database, or a recipe by cross-validation by patient.",
            "Splits: inter, intra, train-cv (SPRSound); train, test, all, icbhi-cv (ICBHI 2017).",
            "train-cv and icbhi-cv cross-validate a recipe inside the training set, by patient;",
            "left-out is what a model of train --leave-out has not seen of its training set."
        },
        footer = {
            "",
            "Examples:",
            "  lungwort score --database ~/databases --split inter --json inter.json",
            "  lungwort score --database ~/databases --split train-cv --recipe models/recipes/shipped.json"
        })
@SuppressWarnings("NullAway.Init") // picocli fills the fields
final class ScoreCommand implements Callable<Integer> {
    private static final String CROSS_VALIDATION = "train-cv";
    private static final String ICBHI_CROSS_VALIDATION = "icbhi-cv";
    private static final String LEFT_OUT = "left-out";
    private static final long BOOTSTRAP_SEED = 1;

    private static final OutputKind FIGURES = new OutputKind("a file of scores", "\\{\\s*\"database\"");

    @Option(
            names = "--database",
            required = true,
            paramLabel = "DIR",
            description = "The folder that holds BioCAS2022 or ICBHI_final_database, or one of these itself.")
    private Path database;

    @Option(
            names = "--split",
            paramLabel = "NAME",
            description = {
                "Which recordings. Default: train-cv for SPRSound, or inter where --model is given;",
                "test for ICBHI 2017 where the folder holds only that."
            })
    private @Nullable String asked;

    @Option(
            names = "--model",
            paramLabel = "FILE",
            description = "The model to score (default: the one that Lungwort ships). Not for cross-validation.")
    private @Nullable Path model;

    @Option(
            names = "--recipe",
            paramLabel = "FILE",
            description =
                    "The recipe to cross-validate (default: the shipped model's). Only for train-cv and icbhi-cv.")
    private @Nullable Path recipe;

    @Option(
            names = "--altered",
            defaultValue = "none",
            paramLabel = "HOW",
            description = {
                "Alter each recording first, to see what that costs: eq10, lowpass1000, lowpass2000, rate4000, rate44100, noise20, noise10, gain+20, gain-20, phone; and where ffmpeg is installed opus16, aac32 (default: ${DEFAULT-VALUE}). Not for cross-validation."
            })
    private String altered;

    @Mixin
    private CacheOption cache;

    @Option(names = "--json", paramLabel = "FILE", description = "Write all figures there; - for standard output.")
    private @Nullable String json;

    @Option(
            names = "--answers",
            paramLabel = "DIR",
            description = "Write every single answer there: recordings.csv and events.csv.")
    private @Nullable Path answersTo;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        String split = split();
        boolean crossValidation = isCrossValidation(split);
        if (crossValidation && model != null) {
            throw new ParameterException(
                    spec.commandLine(),
                    "a trained model has seen the training set, so %s takes --recipe, not --model".formatted(split));
        }
        if (!crossValidation && recipe != null) {
            throw new ParameterException(
                    spec.commandLine(), "--recipe goes with --split train-cv or icbhi-cv; give --model for " + split);
        }
        if (crossValidation && !altered.equals(AlterationRow.NONE.id())) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--altered is for a model, not for the cross-validation of %s; make one with train --leave-out and score it with --split left-out"
                            .formatted(split));
        }
        if (split.equals(LEFT_OUT) && model == null) {
            throw new ParameterException(spec.commandLine(), "--split left-out needs a --model of train --leave-out");
        }
        SoundModel ofOthers = split.equals(LEFT_OUT) ? GivenModel.read(Objects.requireNonNull(model)) : null;
        String whole = ofOthers == null ? split : learntSplit(ofOthers);
        Database db = Databases.forSplit(database, whole);
        List<AnnotatedRecording> all =
                ofOthers == null ? recordings(db, split) : Trainer.leftOut(ofOthers, db.withAudio(whole));
        List<AnnotatedRecording> scored =
                all.stream().filter(AnnotatedRecording::hasAudio).toList();
        if (scored.isEmpty()) {
            throw new BadInput("%s: the split '%s' has annotations but no audio; unpack the audio beside them."
                    .formatted(db.folder(), split));
        }
        if (json != null && !json.equals("-")) {
            OutputFile.tryOut(Path.of(json), FIGURES);
        }
        if (answersTo != null) {
            AnswerTables.check(answersTo);
        }
        PrintWriter err = spec.commandLine().getErr();
        db.warnings().forEach(w -> err.println("note: " + w));
        Made made = crossValidation ? crossValidated(db.kind(), scored) : answered(db.kind(), scored);
        ScoreReport report = new Scorer(PatientBootstrap.DEFAULT_RESAMPLES, BOOTSTRAP_SEED)
                .score(db.kind(), split, made.name(), made.answers(), all.size() - scored.size());
        if (answersTo != null) {
            AnswerTables.write(answersTo, made.answers());
        }
        print(report, made.provenance());
        return 0;
    }

    private String split() {
        if (asked != null) {
            return asked;
        }
        if (Databases.find(database, DatabaseKind.SPRSOUND).isEmpty()
                && Databases.find(database, DatabaseKind.ICBHI).isPresent()) {
            return "test";
        }
        return model == null ? CROSS_VALIDATION : "inter";
    }

    private static boolean isCrossValidation(String split) {
        return split.equals(CROSS_VALIDATION) || split.equals(ICBHI_CROSS_VALIDATION);
    }

    /** Where the split was not asked for, and is not there, what can be asked for is said. */
    private List<AnnotatedRecording> recordings(Database db, String split) {
        List<String> there = db.splitsThere();
        if (asked != null || model == null || there.isEmpty() || there.contains(split)) {
            return db.recordings(split);
        }
        OptionalInt without = Trainer.leftOutFold(GivenModel.read(model));
        if (without.isPresent()) {
            throw new BadInput(
                    "%s holds nothing of the split '%s'; %s has not seen fold %d of its training set: add --split left-out to score it on that."
                            .formatted(db.folder(), split, model, without.getAsInt()));
        }
        throw new BadInput(
                "%s holds nothing of the split '%s', on which a model is scored where no --split is given, but of %s; unpack the test set there, or name a split."
                        .formatted(
                                db.folder(),
                                split,
                                there.stream()
                                        .map(name -> isCrossValidation(name) ? name + " (with --recipe)" : name)
                                        .collect(Collectors.joining(", "))));
    }

    /** The split that a model of one fold's others was made from. */
    private static String learntSplit(SoundModel model) {
        boolean sprsound = model.facts().getOrDefault(Trainer.TRAINED_ON, "").contains(DatabaseKind.SPRSOUND.title());
        return sprsound ? CROSS_VALIDATION : ICBHI_CROSS_VALIDATION;
    }

    private Made crossValidated(DatabaseKind kind, List<AnnotatedRecording> scored) {
        Recipe read = recipe == null ? ShippedModel.recipe() : Recipe.read(recipe);
        List<AnnotatedRecording> others = others(kind, read);
        Provenance provenance = Provenance.ofRecipe(scored, others, read);
        ProgressLine progress = new ProgressLine(spec.commandLine().getErr());
        CrossValidation.Result answers =
                CrossValidation.ofRecordings(kind, scored, others, read, cache.measuring(progress));
        progress.done();
        return new Made("recipe " + read.name(), answers, provenance);
    }

    private Made answered(DatabaseKind kind, List<AnnotatedRecording> scored) {
        byte[] content = model == null ? ShippedModel.content() : GivenModel.content(model);
        SoundModel read = model == null ? ShippedModel.read(content) : GivenModel.read(content, model);
        SoundChange change = change();
        Provenance provenance = Provenance.ofModel(scored, content, change);
        ProgressLine progress = new ProgressLine(spec.commandLine().getErr());
        CrossValidation.Result answers = CrossValidation.answer(scored, kind, change, read, cache.measuring(progress));
        progress.done();
        OptionalInt without = Trainer.leftOutFold(read);
        String name = "model " + read.facts().getOrDefault("recipe", "of unknown recipe")
                + (without.isPresent() ? " without fold " + without.getAsInt() : "")
                + (Trainer.learntFrom(read, kind, scored) ? ", WHICH LEARNT FROM THESE RECORDINGS" : "");
        return new Made(name, answers, provenance);
    }

    /** What was answered, by what (in words), and what that was made of. */
    private record Made(String name, CrossValidation.Result answers, Provenance provenance) {}

    /** What a recipe for both databases learns from beside the one that is scored. */
    private List<AnnotatedRecording> others(DatabaseKind scored, Recipe read) {
        if (!read.bothDatabases()) {
            return List.of();
        }
        return Databases.open(database, scored.other()).withAudio("train");
    }

    private SoundChange change() {
        Optional<CodecRow> codec = CodecRow.ofId(altered);
        if (codec.isPresent()) {
            return codec.get();
        }
        try {
            return AlterationRow.ofId(altered);
        } catch (BadInput e) {
            String coded = Arrays.stream(CodecRow.values()).map(CodecRow::id).collect(Collectors.joining(", "));
            throw new BadInput("%s Where ffmpeg is installed, also: %s.".formatted(e.getMessage(), coded), e);
        }
    }

    private void print(ScoreReport report, Provenance provenance) {
        PrintWriter out = spec.commandLine().getOut();
        if (json != null && !json.equals("-")) {
            OutputFile.write(
                    Path.of(json), FIGURES, ScoreJson.text(report, provenance).getBytes(StandardCharsets.UTF_8));
        }
        out.print("-".equals(json) ? ScoreJson.text(report, provenance) : ScoreText.of(report, provenance));
        out.flush();
    }
}
