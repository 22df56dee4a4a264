package lungwort.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Databases;
import lungwort.score.Recipe;
import lungwort.score.Trainer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Trains a model by recipe. */
@Command(
        name = "train",
        mixinStandardHelpOptions = true,
        description = "Train a model by recipe on SPRSound's training set.",
        footer = {
            "",
            "Example: lungwort train --recipe models/recipes/shipped.json --database ~/databases --out my.lungwort"
        })
@SuppressWarnings("NullAway.Init") // picocli fills the fields
final class TrainCommand implements Callable<Integer> {
    @Option(names = "--recipe", required = true, paramLabel = "FILE", description = "What to train.")
    private Path recipe;

    @Option(
            names = "--database",
            required = true,
            paramLabel = "DIR",
            description = "The folder that holds BioCAS2022, or that folder itself.")
    private Path database;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "Where to write the model.")
    private Path out;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        Recipe read = Recipe.read(recipe);
        Database db = Databases.open(database, DatabaseKind.SPRSOUND);
        List<AnnotatedRecording> training = db.recordings("train-cv");
        PrintWriter err = spec.commandLine().getErr();
        ProgressLine progress = new ProgressLine(err);
        SoundModel model = Trainer.train(training, read, progress)
                .with(Map.of("trainedOn", DatabaseKind.SPRSOUND.title() + " training set"));
        progress.done();
        ModelFile.write(model, out);
        spec.commandLine()
                .getOut()
                .printf(
                        "%s: trained by recipe %s on %d recordings of %d patients, %d kB.%n",
                        out,
                        read.name(),
                        training.size(),
                        Database.patients(training).size(),
                        ModelFile.bytes(model).length / 1024);
        return 0;
    }
}
