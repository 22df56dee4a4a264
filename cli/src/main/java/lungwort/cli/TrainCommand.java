package lungwort.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import lungwort.BadInput;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Databases;
import lungwort.output.OutputFile;
import lungwort.output.OutputKind;
import lungwort.score.Measuring;
import lungwort.score.Recipe;
import lungwort.score.Trainer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Trains a model by recipe. */
@Command(
        name = "train",
        mixinStandardHelpOptions = true,
        description = {
            "Train a model by recipe on SPRSound's training set, or on ICBHI's with --split train.",
            "A recipe that names both databases learns from both training sets; such a model is for your own research, ICBHI's terms do not let it be given on."
        },
        footer = {
            "",
            "Examples:",
            "  lungwort train --recipe models/recipes/shipped.json --database ~/databases --out my.lungwort",
            "  lungwort train --recipe models/recipes/low-level-boosted.json --database ~/databases --split train --out icbhi.lungwort"
        })
@SuppressWarnings("NullAway.Init") // picocli fills the fields
final class TrainCommand implements Callable<Integer> {
    /** A model's zip begins with its manifest, the copy of a diary does not. */
    private static final OutputKind MODEL = new OutputKind("a model", "PK.{28}manifest[.]json");

    @Option(names = "--recipe", required = true, paramLabel = "FILE", description = "What to train.")
    private Path recipe;

    @Option(
            names = "--database",
            required = true,
            paramLabel = "DIR",
            description = "The folder that holds BioCAS2022 or ICBHI_final_database, or one of these itself.")
    private Path database;

    @Option(
            names = "--split",
            defaultValue = "train-cv",
            paramLabel = "NAME",
            description =
                    "train-cv: SPRSound's training set; train: ICBHI's training side (default: ${DEFAULT-VALUE}).")
    private String split;

    @Option(
            names = "--leave-out",
            paramLabel = "N",
            description =
                    "Learn without fold N of the folds that cross-validation deals the patients to, from 1; score --split left-out then tries the model on that fold.")
    private @Nullable Integer leaveOut;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "Where to write the model.")
    private Path out;

    @Mixin
    private CacheOption cache;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        OutputFile.tryOut(out, MODEL);
        Recipe read = Recipe.read(recipe);
        ProgressLine progress = new ProgressLine(spec.commandLine().getErr());
        if (leaveOut != null && read.bothDatabases()) {
            throw new ParameterException(spec.commandLine(), "--leave-out is for recipes that learn from one database");
        }
        Trained trained = read.bothDatabases() ? onBoth(read, progress) : onOne(read, progress);
        progress.done();
        ModelFile.write(trained.model(), out);
        spec.commandLine()
                .getOut()
                .printf(
                        "%s: trained by recipe %s on %d recordings of %d patients, %d kB.%n",
                        out,
                        read.name(),
                        trained.recordings().size(),
                        Database.patients(trained.recordings()).size(),
                        ModelFile.bytes(trained.model()).length / 1024);
        return 0;
    }

    private record Trained(SoundModel model, List<AnnotatedRecording> recordings) {}

    private Trained onOne(Recipe read, ProgressLine progress) {
        // Where ICBHI is not there, scoring takes "train" for SPRSound's training set; what is learnt from must be
        // named.
        Database db = split.equals("train")
                ? Databases.open(database, DatabaseKind.ICBHI)
                : Databases.forSplit(database, split);
        if (!split.equals("train-cv") && !(split.equals("train") && db.kind() == DatabaseKind.ICBHI)) {
            throw new ParameterException(
                    spec.commandLine(), "--split for training is train-cv (SPRSound) or train (ICBHI), not " + split);
        }
        List<AnnotatedRecording> training = db.withAudio(split);
        leftOut(db, db.recordings(split).size() - training.size());
        Measuring measuring = cache.measuring(progress);
        SoundModel model = leaveOut == null
                ? Trainer.train(db.kind(), training, read, measuring)
                : Trainer.trainWithout(leaveOut, db.kind(), training, read, measuring);
        return new Trained(
                model.with(Map.of(Trainer.TRAINED_ON, db.kind().title() + " training set")),
                leaveOut == null ? training : Trainer.without(leaveOut, training, read));
    }

    private Trained onBoth(Recipe read, ProgressLine progress) {
        List<AnnotatedRecording> sprsound =
                Databases.open(database, DatabaseKind.SPRSOUND).withAudio("train-cv");
        Database icbhi = Databases.open(database, DatabaseKind.ICBHI);
        List<AnnotatedRecording> cycles = icbhi.withAudio("train");
        leftOut(icbhi, icbhi.recordings("train").size() - cycles.size());
        SoundModel model = Trainer.trainOnBoth(sprsound, cycles, read, cache.measuring(progress))
                .with(Map.of(Trainer.TRAINED_ON, "SPRSound and ICBHI 2017 training sets; not to be given on"));
        List<AnnotatedRecording> all = new ArrayList<>(sprsound);
        all.addAll(cycles);
        return new Trained(model, all);
    }

    private void leftOut(Database db, int recordings) {
        if (recordings > 0 && db.kind() == DatabaseKind.SPRSOUND) {
            throw new BadInput("%s: the audio of %d annotated recordings is missing; unpack the whole download."
                    .formatted(db.folder(), recordings));
        }
        if (recordings > 0) {
            spec.commandLine()
                    .getErr()
                    .printf(
                            "note: %s: %d recordings are annotated but their audio is not there; the model learns without them.%n",
                            db.kind().title(), recordings);
        }
    }
}
