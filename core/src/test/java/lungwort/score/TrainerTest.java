package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.RecordingLabel;
import lungwort.dataset.Split;
import org.junit.jupiter.api.Test;

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
}
