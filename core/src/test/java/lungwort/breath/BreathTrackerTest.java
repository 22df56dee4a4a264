package lungwort.breath;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Objects;
import lungwort.audio.Recording;
import lungwort.practice.BreathPattern;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** All truth here is synthesised: rates over the range of Fleming et al., Lancet 2011, and NICE NG9 (above 70 is an emergency). */
class BreathTrackerTest {
    @ParameterizedTest
    @ValueSource(doubles = {8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 70})
    void theRateIsWithinOneBreathAMinute(double perMinute) {
        for (double expirationDb : new double[] {-8, -3}) {
            PracticeRecording scene = breathing(perMinute, expirationDb);
            Breathing.Rate rate = Objects.requireNonNull(
                    BreathTracker.track(scene.recording()).rate());
            assertThat(rate.perMinute()).isBetween(trueRate(scene) - 1, trueRate(scene) + 1);
            assertThat(rate.low()).isLessThanOrEqualTo(rate.perMinute());
            assertThat(rate.high()).isGreaterThanOrEqualTo(rate.perMinute());
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {8, 15, 30, 50, 70})
    void inspirationIsNotTakenForExpiration(double perMinute) {
        PracticeRecording scene = breathing(perMinute, -8);
        Breathing breathing = BreathTracker.track(scene.recording());
        int right = 0;
        int swapped = 0;
        List<Breath> uncut =
                scene.truth().breaths().subList(0, scene.truth().breaths().size() - 1);
        for (Breath breath : uncut) {
            for (PhaseSpan span : breath.phases()) {
                PhaseSpan found = breathing.phaseAt((span.startSeconds() + span.endSeconds()) / 2);
                if (found == null || span.phase() == BreathPhase.PAUSE) {
                    continue;
                }
                right += found.phase() == span.phase() ? 1 : 0;
                swapped += found.phase() == opposite(span.phase()) ? 1 : 0;
            }
        }
        assertThat(swapped).isZero();
        assertThat(right).isGreaterThanOrEqualTo((int) (0.9 * 2 * uncut.size()));
    }

    @Test
    void nothingIsSaidOfTooShortARecording() {
        assertThat(BreathTracker.track(new Recording(new double[4000], 4000, "one second")))
                .isEqualTo(Breathing.NONE);
        assertThat(BreathTracker.track(new Recording(new double[0], 4000, "empty")))
                .isEqualTo(Breathing.NONE);
    }

    @Test
    void theResultIsTheSameInWhateverBlocksTheSamplesCame() {
        Recording recording = breathing(20, -8).recording();
        BandLevelMeter meter = new BandLevelMeter(recording.sampleRateHz());
        double[] samples = recording.samples();
        for (int at = 0; at < samples.length; at += 1237) {
            meter.push(java.util.Arrays.copyOfRange(samples, at, Math.min(samples.length, at + 1237)));
        }
        assertThat(BreathTracker.track(meter.levels())).isEqualTo(BreathTracker.track(recording));
    }

    private static BreathPhase opposite(BreathPhase phase) {
        return phase == BreathPhase.INSPIRATION ? BreathPhase.EXPIRATION : BreathPhase.INSPIRATION;
    }

    private static PracticeRecording breathing(double perMinute, double expirationDb) {
        BreathPattern pattern = new BreathPattern(perMinute, 0.40, 0.15, 0.05, 0.4, -26, expirationDb);
        return PracticeScene.scene("breathing")
                .seconds(Math.max(20, 300 / perMinute))
                .seed(4)
                .breath(pattern)
                .heart(75, -30)
                .synthesise();
    }

    private static double trueRate(PracticeRecording scene) {
        List<Breath> breaths = scene.truth().breaths();
        int n = breaths.size();
        return 60
                * (n - 1)
                / (breaths.get(n - 1).startSeconds() - breaths.get(0).startSeconds());
    }
}
