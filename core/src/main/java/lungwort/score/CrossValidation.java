package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import lungwort.classify.SoundModel;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;

/**
 * Cross-validation by patient: each recording is answered by a model that was trained, calibrated and given its thresholds and limits without any recording of its patient.
 */
public final class CrossValidation {
    private CrossValidation() {}

    /**
     * What the models of all folds said, recording by recording.
     *
     * @param events of all recordings
     * @param recordings all of them
     * @param annotated the sounds that annotators marked in the recordings that listeners could judge
     * @param found what Lungwort found there by itself
     */
    public record Result(
            List<EventPrediction> events,
            List<RecordingPrediction> recordings,
            List<EventSpan> annotated,
            List<EventSpan> found) {
        public Result {
            events = List.copyOf(events);
            recordings = List.copyOf(recordings);
            annotated = List.copyOf(annotated);
            found = List.copyOf(found);
        }

        private static Result of(Answers answers) {
            return new Result(answers.events, answers.recordings, answers.annotated, answers.found);
        }
    }

    /**
     * Measures recordings and runs all outer folds of a recipe.
     *
     * @param kind the database of {@code recordings}
     * @param others recordings of the other database that every fold learns from too; none of them is scored
     * @throws lungwort.BadInput if audio is missing, there are too few patients for the folds, or the recipe cannot be followed
     */
    public static Result ofRecordings(
            DatabaseKind kind,
            List<AnnotatedRecording> recordings,
            List<AnnotatedRecording> others,
            Recipe recipe,
            Measuring measuring) {
        Trainer.requireAudio(recordings);
        Trainer.requireAudio(others);
        Trainer.requireFolds(recordings, others, recipe);
        List<Measured> scored = Trainer.measure(kind, recordings, recipe, measuring);
        List<Measured> always = Trainer.measure(kind.other(), others, recipe, measuring);
        return run(new Parts(kind, scored, always), recipe, measuring.progress());
    }

    /** What is dealt to folds and scored, and what every fold learns from. */
    record Parts(DatabaseKind kind, List<Measured> scored, List<Measured> always) {
        /** Cycles are no sound events: where events are learnt from too, cycles are learnt from and judged as windows. */
        private boolean cyclesAsWindows(DatabaseKind of) {
            return of == DatabaseKind.ICBHI && !always.isEmpty();
        }

        private Measured learnt(Measured m, DatabaseKind of) {
            return cyclesAsWindows(of) ? m.cyclesAsWindows() : m;
        }
    }

    static Result run(Parts parts, Recipe recipe, Progress progress) {
        List<Measured> scored = parts.scored();
        int[] fold = Trainer.outerFolds(scored.stream().map(Measured::source).toList(), recipe);
        Answers answers = new Answers();
        for (int f = 0; f < recipe.outerFolds(); f++) {
            List<Measured> training = new ArrayList<>();
            List<Measured> held = new ArrayList<>();
            for (int i = 0; i < fold.length; i++) {
                if (fold[i] == f) {
                    held.add(scored.get(i));
                } else {
                    training.add(parts.learnt(scored.get(i), parts.kind()));
                }
            }
            parts.always()
                    .forEach(m -> training.add(parts.learnt(m, parts.kind().other())));
            String name = "fold " + (f + 1) + " of " + recipe.outerFolds() + ", ";
            SoundModel model =
                    Trainer.fit(training, recipe, (what, done, total) -> progress.at(name + what, done, total));
            answers.addAll(
                    held.stream().filter(m -> !m.item().altered()).toList(),
                    model,
                    parts.cyclesAsWindows(parts.kind()));
        }
        return Result.of(answers);
    }

    /**
     * Lets a trained model answer to recordings of a database.
     *
     * @param change what is done to each recording first, for robustness tables; {@link AlterationRow#NONE} for plain scores
     */
    public static Result answer(
            List<AnnotatedRecording> recordings,
            DatabaseKind kind,
            SoundChange change,
            SoundModel model,
            Measuring measuring) {
        Trainer.requireAudio(recordings);
        Answers answers = new Answers();
        boolean cyclesAsWindows = kind == DatabaseKind.ICBHI && !Trainer.learntCycles(model);
        answers.addAll(new Measurer(measuring).all(recordings, change), model, cyclesAsWindows);
        return Result.of(answers);
    }
}
