package lungwort.tests.breath;

import static org.assertj.core.api.Assertions.assertThat;

import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.breath.EnvelopeBreathBaseline;
import lungwort.breath.PhaseSpan;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.OpenData;
import lungwort.dataset.RecordingLabel;
import org.junit.jupiter.api.Test;

/** Breaths against the annotators of ICBHI 2017 (Rocha et al. 2019) and SPRSound (Zhang et al. 2022). Prints the comparison table of BREATHS.md. */
class BreathsOnPublicDataTest {
    @Test
    void icbhiCyclesAreFoundAndTheRateIsRight() {
        BreathScore tracker = new BreathScore();
        BreathScore baseline = new BreathScore();
        for (AnnotatedRecording truth : OpenData.open(DatabaseKind.ICBHI).withAudio("all")) {
            if (truth.events().size() < 3) {
                continue;
            }
            Recording recording = RecordingReader.read(truth.audio());
            tracker.add(truth, BreathTracker.track(recording));
            baseline.add(truth, EnvelopeBreathBaseline.track(recording));
        }
        System.out.println("ICBHI, envelope baseline: " + baseline);
        System.out.println("ICBHI, breath tracker:    " + tracker);
        assertThat(tracker.medianRateError()).isLessThanOrEqualTo(1.5);
        assertThat(tracker.boundaryF()).isGreaterThanOrEqualTo(0.75);
        assertThat(tracker.boundaryF()).isGreaterThan(baseline.boundaryF());
    }

    @Test
    void sprsoundEventsAreOverlapped() {
        SpanOverlap overlap = new SpanOverlap();
        int index = 0;
        for (AnnotatedRecording truth : OpenData.open(DatabaseKind.SPRSOUND).withAudio("train")) {
            // Every fourth recording keeps the check short.
            if (truth.label() == RecordingLabel.POOR_QUALITY || truth.events().isEmpty() || index++ % 4 != 0) {
                continue;
            }
            overlap.add(truth, BreathTracker.track(RecordingReader.read(truth.audio())));
        }
        System.out.println("SPRSound, breath tracker: " + overlap);
        assertThat(overlap.f()).isGreaterThan(0.6);
    }

    /** Time that annotated events and found breaths (without their pauses) share. SPRSound's annotators left breaths out, so 1 cannot be reached. */
    private static final class SpanOverlap {
        private static final double STEP_SECONDS = 0.02;
        private int both;
        private int annotated;
        private int found;
        private int events;
        private int begun;

        void add(AnnotatedRecording truth, Breathing breathing) {
            double end = truth.durationSeconds().orElseThrow();
            for (int i = 0; i * STEP_SECONDS < end; i++) {
                boolean wanted = marked(truth, i * STEP_SECONDS);
                PhaseSpan span = breathing.phaseAt(i * STEP_SECONDS);
                boolean got = span != null && span.phase() != BreathPhase.PAUSE;
                annotated += wanted ? 1 : 0;
                found += got ? 1 : 0;
                both += wanted && got ? 1 : 0;
            }
            for (AnnotatedEvent event : truth.events()) {
                if (event.startSeconds() > BreathScore.TOLERANCE_SECONDS) {
                    events++;
                    begun += begins(breathing, event.startSeconds()) ? 1 : 0;
                }
            }
        }

        private static boolean marked(AnnotatedRecording truth, double seconds) {
            return truth.events().stream().anyMatch(e -> seconds >= e.startSeconds() && seconds < e.endSeconds());
        }

        private static boolean begins(Breathing breathing, double seconds) {
            return breathing.breaths().stream()
                    .mapToDouble(Breath::startSeconds)
                    .anyMatch(s -> Math.abs(s - seconds) <= BreathScore.TOLERANCE_SECONDS);
        }

        double f() {
            return 2.0 * both / (annotated + found);
        }

        @Override
        public String toString() {
            return "overlap F %.3f in time (recall %.3f, precision %.3f); %.3f of %d events begin with a found breath"
                    .formatted(f(), (double) both / annotated, (double) both / found, (double) begun / events, events);
        }
    }
}
