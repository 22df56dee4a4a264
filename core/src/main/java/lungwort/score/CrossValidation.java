package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import lungwort.classify.SoundModel;
import lungwort.classify.TrainingItem;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;

/**
 * Cross-validation by patient: each recording is answered by a model that was trained, calibrated and given its thresholds without any recording of its patient.
 */
public final class CrossValidation {
    private CrossValidation() {}

    /**
     * What the models of all folds said, recording by recording.
     *
     * @param events of all recordings
     * @param recordings all of them
     */
    public record Result(List<EventPrediction> events, List<RecordingPrediction> recordings) {
        public Result {
            events = List.copyOf(events);
            recordings = List.copyOf(recordings);
        }
    }

    /** Measures recordings and runs all outer folds of a recipe. */
    public static Result ofRecordings(List<AnnotatedRecording> recordings, Recipe recipe, Progress progress) {
        Trainer.requireAudio(recordings);
        return run(Trainer.measure(recordings, recipe, Measured.Purpose.SCORING, progress), recipe, progress);
    }

    static Result run(List<Measured> measured, Recipe recipe, Progress progress) {
        List<TrainingItem> items = measured.stream().map(Measured::item).toList();
        int[] fold = Trainer.folds(items, recipe.outerFolds(), recipe.foldSeed());
        Answers answers = new Answers();
        for (int f = 0; f < recipe.outerFolds(); f++) {
            List<Measured> training = new ArrayList<>();
            List<Measured> held = new ArrayList<>();
            for (int i = 0; i < fold.length; i++) {
                (fold[i] == f ? held : training).add(measured.get(i));
            }
            String name = "fold %d of %d, ".formatted(f + 1, recipe.outerFolds());
            SoundModel model =
                    Trainer.fit(training, recipe, (what, done, total) -> progress.at(name + what, done, total));
            answers.addAll(held.stream().filter(m -> !m.item().altered()).toList(), model, false);
        }
        return new Result(answers.events, answers.recordings);
    }

    /**
     * Lets a trained model answer to recordings of a database.
     *
     * @param row what is done to each recording first, for robustness tables; {@link AlterationRow#NONE} for plain scores
     */
    public static Result answer(
            List<AnnotatedRecording> recordings,
            DatabaseKind kind,
            AlterationRow row,
            SoundModel model,
            Progress progress) {
        Trainer.requireAudio(recordings);
        Answers answers = new Answers();
        answers.addAll(Measured.all(recordings, row, progress), model, kind == DatabaseKind.ICBHI);
        return new Result(answers.events, answers.recordings);
    }
}
