package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.dataset.Split;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;

class OwnSegmentationTest {
    private final List<MeasuredSound> evidence = new ArrayList<>();

    private void tone(double start, double end) {
        evidence.add(new ContinuousSound(SoundKind.WHEEZE, start, end, List.of(), 400, 0, false, 1, 15));
    }

    private void crackles(int count, double start, double every) {
        for (int i = 0; i < count; i++) {
            double at = start + i * every;
            evidence.add(new Crackle(SoundKind.FINE_CRACKLE, at, at + 0.01, 0.7, 5, 1, 15));
        }
    }

    @Test
    void piecesOfAToneAreOneEventAndALongPauseMakesTwo() {
        tone(1, 1.4);
        tone(1.6, 2);
        tone(2.7, 3);
        List<EventSpan> found = OwnSegmentation.found("r", evidence);
        assertThat(found).hasSize(2).allMatch(e -> e.kind().equals("continuous"));
        assertThat(found.get(0).startSeconds()).isEqualTo(0.9, within(1e-9));
        assertThat(found.get(0).endSeconds()).isEqualTo(2.1, within(1e-9));
        assertThat(found.get(1).startSeconds()).isEqualTo(2.6, within(1e-9));
    }

    @Test
    void aFewClicksAreNoRunOfCrackles() {
        crackles(3, 1, 0.1);
        assertThat(OwnSegmentation.found("r", evidence)).isEmpty();
        crackles(4, 3, 0.1);
        List<EventSpan> found = OwnSegmentation.found("r", evidence);
        assertThat(found).singleElement().satisfies(e -> {
            assertThat(e.kind()).isEqualTo("discontinuous");
            assertThat(e.startSeconds()).isEqualTo(2.95, within(1e-9));
            assertThat(e.endSeconds()).isEqualTo(3.36, within(1e-9));
        });
    }

    /** A tone between crackles does not part their run: kinds are joined apart. */
    @Test
    void kindsAreJoinedApart() {
        crackles(2, 1, 0.1);
        tone(1.2, 1.5);
        crackles(2, 1.3, 0.1);
        assertThat(OwnSegmentation.found("r", evidence)).hasSize(2);
    }

    @Test
    void wheezeAndCrackleIsAnEventOfBothKindsAndNormalOfNone() {
        AnnotatedRecording r = new AnnotatedRecording(
                "r",
                Path.of("r.wav"),
                1,
                OptionalDouble.of(9),
                "p",
                "p1",
                OptionalDouble.empty(),
                "d",
                Split.TRAIN,
                List.of(
                        new AnnotatedEvent(0, 1, EventLabel.NORMAL),
                        new AnnotatedEvent(2, 3, EventLabel.WHEEZE_AND_CRACKLE),
                        new AnnotatedEvent(4, 5, EventLabel.FINE_CRACKLE)),
                RecordingLabel.CAS_AND_DAS);
        assertThat(OwnSegmentation.annotated(r))
                .extracting(EventSpan::kind)
                .containsExactly("continuous", "discontinuous", "discontinuous");
    }
}
