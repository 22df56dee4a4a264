package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import lungwort.BadInput;
import lungwort.classify.MarkedSound;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.dataset.Split;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.quality.Quality;
import lungwort.sound.BreathAgreement;
import lungwort.sound.ContinuousSound;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TrainerTest {
    private static AnnotatedRecording of(Split split) {
        return new AnnotatedRecording(
                "r",
                Path.of("r.wav"),
                1,
                OptionalDouble.of(2),
                "p",
                "p1",
                OptionalDouble.empty(),
                "d",
                split,
                List.of(),
                RecordingLabel.NORMAL);
    }

    @Test
    void aModelThatLearntFromTheScoredRecordingsIsKnown() {
        SoundModel model = CrossValidationTest.model().with(Map.of(Trainer.TRAINED_ON, "SPRSound training set"));
        assertThat(Trainer.learntFrom(model, DatabaseKind.SPRSOUND, List.of(of(Split.INTER), of(Split.TRAIN))))
                .isTrue();
        assertThat(Trainer.learntFrom(model, DatabaseKind.SPRSOUND, List.of(of(Split.INTER))))
                .isFalse();
        assertThat(Trainer.learntFrom(model, DatabaseKind.ICBHI, List.of(of(Split.TRAIN))))
                .isFalse();
        assertThat(Objects.requireNonNull(
                        ModelFile.read(ModelFile.bytes(model), "m").facts().get(Trainer.TRAINED_ON)))
                .startsWith("SPRSound");
    }

    @Test
    void onlyAModelOfBreathCyclesJudgesCyclesAsMarkedSegments() {
        SoundModel model = CrossValidationTest.model();
        assertThat(Trainer.learntCycles(model)).isFalse();
        assertThat(Trainer.learntCycles(model.with(Map.of("segments", "breath cycles"))))
                .isTrue();
    }

    /** Made-up recordings of 12 patients, in half of which both kinds of sound are marked; the net sees them, and tones are measured there. */
    private static List<Measured> measured() {
        SplittableRandom random = new SplittableRandom(4);
        List<Measured> all = new ArrayList<>();
        for (int i = 0; i < 24; i++) {
            boolean both = i % 2 == 0;
            AnnotatedRecording source = new AnnotatedRecording(
                    "r" + i,
                    Path.of("r" + i + ".wav"),
                    1,
                    OptionalDouble.of(2),
                    "p" + i / 2,
                    "p1",
                    OptionalDouble.empty(),
                    "d",
                    Split.TRAIN,
                    both
                            ? List.of(
                                    new AnnotatedEvent(0.2, 0.8, EventLabel.WHEEZE),
                                    new AnnotatedEvent(0.5, 0.9, EventLabel.NORMAL),
                                    new AnnotatedEvent(1, 1.5, EventLabel.WHEEZE_AND_CRACKLE))
                            : List.of(new AnnotatedEvent(0, 2, EventLabel.NORMAL)),
                    both ? RecordingLabel.CAS_AND_DAS : RecordingLabel.NORMAL);
            byte[][] image = new byte[MelImage.ROWS][100];
            for (byte[] row : image) {
                random.nextBytes(row);
            }
            float[][] segments =
                    rows(source.events().size(), FeatureCatalogue.segment().size(), random);
            List<MeasuredSound> sounds =
                    List.of(new ContinuousSound(SoundKind.WHEEZE, 0.25, 0.75, List.of(), 400, 0, false, 1, 15));
            all.add(Measured.of(
                    source,
                    new MeasuredFile(
                            segments,
                            List.of(new TimeSpan(0, 2)),
                            rows(1, FeatureCatalogue.segment().size(), random),
                            rows(1, FeatureCatalogue.recording().size(), random)[0],
                            image,
                            new Examined(
                                    new Quality(true, List.of()),
                                    both ? sounds : List.of(),
                                    BreathAgreement.NONE,
                                    List.of(),
                                    2,
                                    List.of())),
                    false));
        }
        return all;
    }

    private static float[][] rows(int count, int size, SplittableRandom random) {
        float[][] rows = new float[count][size];
        for (float[] row : rows) {
            for (int j = 0; j < size; j++) {
                row[j] = (float) random.nextGaussian();
            }
        }
        return rows;
    }

    /** Each step once, from the first to the last, whatever the recipe asks for: never a sixth of five. */
    @ParameterizedTest
    @CsvSource({"false, false, 4", "true, false, 5", "true, true, 6"})
    void everyStepOfTrainingIsCounted(boolean net, boolean events, int steps) {
        String learners = "{\"learners\": [{\"kind\": \"linear-softmax\", \"ridge\": 10, \"iterations\": 5}]}";
        Recipe recipe = Recipe.parse(
                """
                {"innerFolds": 2, "segment": %s, "context": %s, "window": %s, "recording": %s, "takes": %s%s%s}
                """.formatted(
                                learners,
                                learners,
                                learners,
                                learners,
                                learners,
                                net ? ", \"net\": {\"nets\": 1, \"epochs\": 1, \"learningRate\": 0.006}" : "",
                                events ? ", \"events\": " + learners : ""),
                "test");
        List<Integer> told = new ArrayList<>();
        SoundModel model = Trainer.fit(measured(), recipe, (what, done, total) -> {
            assertThat(total).isEqualTo(steps);
            assertThat(what).startsWith("training: ");
            told.add(done);
        });
        assertThat(told).isEqualTo(IntStream.rangeClosed(1, steps).boxed().toList());
        assertThat(model.findsEvents()).isEqualTo(events);
    }

    /** What is usual is no extra sound, an altered copy teaches no edges of sounds, and a breath cycle's bounds are no sound's. */
    @Test
    void extraSoundsAreMarkedWhereListenersMarkedThem() {
        Measured own = measured().get(0);
        assertThat(own.item().marked())
                .containsExactly(new MarkedSound(0.2, 0.8, true, false), new MarkedSound(1, 1.5, true, true));
        assertThat(own.item().sounds()).hasSize(1);
        assertThat(own.withCycles().item().marked()).isEmpty();
        assertThat(own.cyclesAsWindows().item().marked()).isEmpty();
        assertThat(measured().get(1).item().marked()).isEmpty();
        SplittableRandom random = new SplittableRandom(4);
        MeasuredFile file = new MeasuredFile(
                rows(3, FeatureCatalogue.segment().size(), random),
                List.of(new TimeSpan(0, 2)),
                rows(1, FeatureCatalogue.segment().size(), random),
                rows(1, FeatureCatalogue.recording().size(), random)[0],
                new byte[MelImage.ROWS][100],
                own.examined());
        assertThat(Measured.of(own.source(), file, true).item().marked()).isEmpty();
    }

    private static List<AnnotatedRecording> ofPatients(int patients) {
        return IntStream.range(0, 2 * patients)
                .mapToObj(i -> new AnnotatedRecording(
                        "r" + i,
                        Path.of("not-there-" + i + ".wav"),
                        1,
                        OptionalDouble.of(2),
                        "p" + i / 2,
                        "p1",
                        OptionalDouble.empty(),
                        "d",
                        Split.TRAIN,
                        List.of(),
                        RecordingLabel.NORMAL))
                .toList();
    }

    private static void refusedUnmeasured(ThrowingCallable work, String patients, String folds) {
        assertThatThrownBy(work)
                .isInstanceOf(BadInput.class)
                .hasMessageContainingAll("are of " + patients + ",", folds, "of more patients");
    }

    /** Before anything is measured, which takes long: the audio of these recordings is not even there. */
    @Test
    void fewerPatientsThanFoldsAreRefusedInASentence() {
        String learners = "{\"learners\": [{\"kind\": \"linear-softmax\"}]}";
        Recipe recipe = Recipe.parse("""
                {"innerFolds": 4, "outerFolds": 3, "segment": %s, "context": %s, "window": %s, "recording": %s, "takes": %s}
                """.formatted(learners, learners, learners, learners, learners), "test");
        Measuring measuring = Measuring.PLAIN;
        refusedUnmeasured(
                () -> Trainer.train(DatabaseKind.SPRSOUND, ofPatients(1), recipe, measuring),
                "1 patient",
                "4 'innerFolds'");
        refusedUnmeasured(
                () -> Trainer.trainWithout(1, DatabaseKind.SPRSOUND, ofPatients(2), recipe, measuring),
                "2 patients",
                "3 'outerFolds'");
        // Three patients are enough for three folds, but each fold is learnt without one of them.
        refusedUnmeasured(
                () -> CrossValidation.ofRecordings(DatabaseKind.SPRSOUND, ofPatients(3), List.of(), recipe, measuring),
                "2 patients",
                "4 'innerFolds'");
        assertThatThrownBy(() -> CrossValidation.ofRecordings(
                        DatabaseKind.SPRSOUND, ofPatients(6), List.of(), recipe, measuring))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("not-there-");
    }
}
