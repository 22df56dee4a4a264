package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;
import lungwort.classify.HeardEvent;
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

    private static PhaseSpan phase(BreathPhase kind, double start, double end) {
        return new PhaseSpan(start, end, kind, 1);
    }

    @Test
    void piecesOfAToneAreOneEventAndALongPauseMakesTwo() {
        tone(1, 1.4);
        tone(1.6, 2);
        tone(2.7, 3);
        List<EventSpan> found = OwnSegmentation.found("r", evidence, List.of());
        assertThat(found).hasSize(2).allMatch(e -> e.kind().equals("continuous"));
        assertThat(found.get(0).startSeconds()).isEqualTo(0.9, within(1e-9));
        assertThat(found.get(0).endSeconds()).isEqualTo(2.1, within(1e-9));
        assertThat(found.get(1).startSeconds()).isEqualTo(2.6, within(1e-9));
    }

    /** Crackles are told by the phase they fall in: a phase with enough of them is an event, whole; a pause never is. */
    @Test
    void aPhaseWithCracklesIsAnEvent() {
        List<PhaseSpan> phases = List.of(
                phase(BreathPhase.INSPIRATION, 0, 1),
                phase(BreathPhase.EXPIRATION, 1, 2.2),
                phase(BreathPhase.PAUSE, 2.2, 3),
                phase(BreathPhase.INSPIRATION, 3, 4));
        crackles(3, 0.2, 0.1);
        tone(0.9, 1.1);
        crackles(2, 1.5, 0.1);
        crackles(5, 2.3, 0.1);
        List<EventSpan> found = OwnSegmentation.found("r", evidence, phases);
        assertThat(found)
                .filteredOn(e -> e.kind().equals("discontinuous"))
                .containsExactly(new EventSpan("r", 0, 1, "discontinuous"));
        assertThat(found).hasSize(2);
        assertThat(OwnSegmentation.found("r", List.of(), phases)).isEmpty();
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

    /** What a model hears is an event as it is, each by itself: close or overlapping ones are not joined, and no time is added. */
    @Test
    void eachSoundThatAModelHearsIsAnEvent() {
        List<HeardEvent> heard = List.of(
                new HeardEvent(1, 1.5, true, 0.9),
                new HeardEvent(1.2, 1.6, false, 0.3),
                new HeardEvent(1.52, 2, true, 0.4));
        assertThat(OwnSegmentation.found("r", heard))
                .containsExactly(
                        new EventSpan("r", 1, 1.5, "continuous"),
                        new EventSpan("r", 1.2, 1.6, "discontinuous"),
                        new EventSpan("r", 1.52, 2, "continuous"));
        assertThat(OwnSegmentation.found("r", List.of())).isEmpty();
    }
}
