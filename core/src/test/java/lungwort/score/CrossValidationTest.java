package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import lungwort.classify.SegmentClass;
import lungwort.classify.SoundModel;
import lungwort.classify.TrainingItem;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.dataset.Split;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.TimeSpan;
import lungwort.quality.Quality;
import lungwort.sound.BreathAgreement;
import lungwort.sound.ContinuousSound;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;

class CrossValidationTest {
    static final Recipe RECIPE = Recipe.parse("""
            {"name": "test", "innerFolds": 2, "outerFolds": 3,
             "segment": {"learners": [{"kind": "boosted-trees", "rounds": 8, "leaves": 4}]},
             "context": {"learners": [{"kind": "linear-softmax", "ridge": 10, "iterations": 20}]},
             "window": {"learners": [{"kind": "linear-softmax", "ridge": 10, "iterations": 20}]},
             "recording": {"learners": [{"kind": "linear-softmax", "ridge": 10, "iterations": 20}]},
             "takes": {"learners": [{"kind": "linear-softmax", "ridge": 10, "iterations": 20}]}}
            """, "test");

    /** A tone in each, which counts as evidence only where the model hears a continuous sound too. */
    private static final Examined TONE = new Examined(
            new Quality(true, List.of()),
            List.of(new ContinuousSound(SoundKind.WHEEZE, 0.5, 1.5, List.of(), 400, 0, false, 1, 15)),
            BreathAgreement.NONE,
            List.of(),
            2,
            List.of());

    /** Made-up recordings of 24 patients; the features tell the class, the labels of one patient can be turned about. */
    private static List<Measured> measured(String turnedPatient) {
        SplittableRandom random = new SplittableRandom(81);
        List<Measured> all = new ArrayList<>();
        for (int i = 0; i < 72; i++) {
            String patient = "p" + i / 3;
            boolean wheeze = i % 2 == 1;
            float[][] rows = {row(wheeze, FeatureCatalogue.segment().size(), random)};
            float[] whole = row(wheeze, FeatureCatalogue.recording().size(), random);
            boolean said = wheeze != patient.equals(turnedPatient);
            EventLabel label = said ? EventLabel.WHEEZE : EventLabel.NORMAL;
            AnnotatedRecording source = new AnnotatedRecording(
                    "r" + i,
                    Path.of("r" + i + ".wav"),
                    1,
                    OptionalDouble.of(2),
                    patient,
                    "p1",
                    OptionalDouble.empty(),
                    "device",
                    Split.TRAIN,
                    List.of(new AnnotatedEvent(0, 2, label)),
                    said ? RecordingLabel.CAS : RecordingLabel.NORMAL);
            TrainingItem item = new TrainingItem(
                    patient,
                    rows,
                    List.of(SegmentClass.valueOf(label.name())),
                    rows,
                    WindowLabels.of(source, List.of(new TimeSpan(0, 2))),
                    whole,
                    Measured.recordingClass(source),
                    false);
            all.add(new Measured(source, item, List.of(new TimeSpan(0, 2)), TONE));
        }
        return all;
    }

    /** A model of these, for tests that need any. */
    static SoundModel model() {
        return Trainer.fit(measured("none"), RECIPE, Progress.SILENT);
    }

    private static float[] row(boolean wheeze, int n, SplittableRandom random) {
        float[] x = new float[n];
        for (int j = 0; j < n; j++) {
            x[j] = (float) (random.nextGaussian() + (wheeze && j < 20 ? 1.5 : 0));
        }
        return x;
    }

    private static CrossValidation.Parts parts(List<Measured> scored) {
        return new CrossValidation.Parts(DatabaseKind.SPRSOUND, scored, List.of());
    }

    @Test
    void answersEveryRecordingOnce() {
        CrossValidation.Result result = CrossValidation.run(parts(measured("none")), RECIPE, Progress.SILENT);
        assertThat(result.recordings())
                .extracting(RecordingPrediction::recording)
                .doesNotHaveDuplicates()
                .hasSize(72);
        assertThat(result.events()).hasSize(72);
        long right = result.events().stream()
                .filter(e -> e.calledAdventitious() == e.truth().adventitious())
                .count();
        assertThat(right).isGreaterThan(60);
    }

    /** Folds are by patient, and nothing of a patient reaches his own answers: turning his labels about must leave every probability he is given untouched. */
    @Test
    void aPatientsLabelsNeverReachHisOwnAnswers() {
        CrossValidation.Result plain = CrossValidation.run(parts(fixedFolds("none")), RECIPE, Progress.SILENT);
        CrossValidation.Result turned = CrossValidation.run(parts(fixedFolds("p5")), RECIPE, Progress.SILENT);
        assertThat(probabilities(turned, "p5"))
                .isEqualTo(probabilities(plain, "p5"))
                .hasSize(3);
        assertThat(probabilities(turned, "p6")).isNotEqualTo(probabilities(plain, "p6"));
    }

    /** The evidence is gated by a model that has not seen the patient, so his own labels cannot move the events that are found in his recordings. */
    @Test
    void aPatientsLabelsNeverReachTheEventsFoundInHisRecordings() {
        CrossValidation.Result plain = CrossValidation.run(parts(fixedFolds("none")), RECIPE, Progress.SILENT);
        CrossValidation.Result turned = CrossValidation.run(parts(fixedFolds("p5")), RECIPE, Progress.SILENT);
        List<String> own = List.of("r15", "r16", "r17");
        assertThat(turned.found().stream().filter(e -> own.contains(e.recording())))
                .containsExactlyElementsOf(plain.found().stream()
                        .filter(e -> own.contains(e.recording()))
                        .toList());
        // 36 of the 72 hold a sound, and the gate lets most of theirs through and few of the others'
        assertThat(plain.found()).hasSizeBetween(25, 50);
        assertThat(plain.annotated()).hasSize(36);
        assertThat(turned.annotated()).isNotEqualTo(plain.annotated());
    }

    /** Dealing patients to folds looks at labels for balance; here every recording shows the dealer the same label, so that folds stay as they are. */
    private static List<Measured> fixedFolds(String turnedPatient) {
        return measured(turnedPatient).stream()
                .map(m -> new Measured(
                        m.source(),
                        new TrainingItem(
                                m.item().patient(),
                                m.item().segments(),
                                m.item().classes(),
                                m.item().windows(),
                                m.item().windowClasses(),
                                m.item().recording(),
                                lungwort.classify.RecordingClass.NORMAL,
                                false),
                        m.windows(),
                        m.examined()))
                .toList();
    }

    /** Breath cycles beside sound events: learnt from as windows alone, since a cycle's bounds are no sound's, and no listener labelled the whole. */
    @Test
    void cyclesBesideEventsAreLearntFromAsWindowsOnly() {
        Measured cycle = measured("none").get(1);
        TrainingItem learnt = cycle.cyclesAsWindows().item();
        assertThat(learnt.segments()).isEmpty();
        assertThat(learnt.classes()).isEmpty();
        assertThat(learnt.label()).isNull();
        assertThat(learnt.windows()).isEqualTo(cycle.item().segments());
        assertThat(learnt.windowClasses()).containsExactly(lungwort.classify.RecordingClass.CONTINUOUS.ordinal());
    }

    /** What every fold learns from changes the answers and is never answered itself; without the other database, cycles are judged as marked segments. */
    @Test
    void theOtherDatabaseIsLearntFromInEveryFoldAndNeverScored() {
        List<Measured> scored = measured("none").subList(0, 36);
        List<Measured> other = renamed(measured("none").subList(36, 72));
        CrossValidation.Result alone = CrossValidation.run(
                new CrossValidation.Parts(DatabaseKind.ICBHI, scored, List.of()), RECIPE, Progress.SILENT);
        CrossValidation.Result both = CrossValidation.run(
                new CrossValidation.Parts(DatabaseKind.ICBHI, scored, other), RECIPE, Progress.SILENT);
        assertThat(both.recordings())
                .extracting(RecordingPrediction::recording)
                .containsExactlyInAnyOrderElementsOf(alone.recordings().stream()
                        .map(RecordingPrediction::recording)
                        .toList());
        assertThat(probabilities(both, "p2")).isNotEqualTo(probabilities(alone, "p2"));
    }

    private static List<Measured> renamed(List<Measured> all) {
        return all.stream()
                .map(m -> new Measured(
                        m.source(),
                        new TrainingItem(
                                "q" + m.item().patient(),
                                m.item().segments(),
                                m.item().classes(),
                                m.item().windows(),
                                m.item().windowClasses(),
                                m.item().recording(),
                                m.item().label(),
                                false),
                        m.windows(),
                        m.examined()))
                .toList();
    }

    private static List<Double> probabilities(CrossValidation.Result result, String patient) {
        return result.events().stream()
                .filter(e -> e.patient().equals(patient))
                .map(EventPrediction::continuous)
                .toList();
    }
}
