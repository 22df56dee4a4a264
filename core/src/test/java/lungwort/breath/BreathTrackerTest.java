package lungwort.breath;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Objects;
import lungwort.audio.Recording;
import lungwort.practice.AddedSound.Disturbance;
import lungwort.practice.AddedSound.Tone;
import lungwort.practice.BreathPattern;
import lungwort.practice.CrackleTrain;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
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

    @ParameterizedTest
    @MethodSource("disturbed")
    void theRateStandsAgainstWheezeCracklesHeartAndTalk(PracticeScene scene) {
        PracticeRecording made = scene.synthesise();
        Breathing breathing = BreathTracker.track(made.recording());
        Breathing.Rate rate = Objects.requireNonNull(breathing.rate());
        assertThat(rate.perMinute()).isBetween(trueRate(made) - 1, trueRate(made) + 1);
        List<Breath> truth = made.truth().breaths();
        for (Breath breath : truth.subList(1, truth.size() - 1)) {
            assertThat(breathing.breaths()).anyMatch(b -> Math.abs(b.startSeconds() - breath.startSeconds()) < 0.3);
        }
    }

    static List<PracticeScene> disturbed() {
        return List.of(
                scene("wheeze that outlasts the flow")
                        .eachPhase(
                                BreathPhase.EXPIRATION,
                                e -> List.of(Tone.wheeze(e.startSeconds() + 0.2, 2.0, 400, 380, -22)))
                        .build(),
                scene("crackles through inspiration")
                        .eachPhase(
                                BreathPhase.INSPIRATION,
                                i -> i.endSeconds() - i.startSeconds() < 1
                                        ? List.of()
                                        : CrackleTrain.coarse(i.startSeconds() + 0.1, i.endSeconds(), 8, -8, 3))
                        .build(),
                scene("loud heart").heart(90, -12).build(),
                scene("a few words")
                        .add(new Disturbance(Disturbance.Kind.SPEECH, 9, 2.5, -24))
                        .build(),
                scene("a cough")
                        .add(new Disturbance(Disturbance.Kind.COUGH, 9, 0.4, -8))
                        .build(),
                scene("loud room").roomNoise(-30).build());
    }

    private static PracticeScene.Builder scene(String name) {
        return PracticeScene.scene(name).seconds(25).seed(6);
    }

    @ParameterizedTest
    @ValueSource(longs = {0, 1, 2, 3, 4, 5, 6, 7})
    void withoutBreathNoPhaseIsGuessed(long seed) {
        Recording noise = PracticeScene.scene("room")
                .seed(seed)
                .breath(BreathPattern.NONE)
                .heart(seed % 2 == 0 ? 0 : 80, -25)
                .roomNoise(-45)
                .synthesise()
                .recording();
        Breathing breathing = BreathTracker.track(noise);
        assertThat(breathing.rate()).isNull();
        assertThat(breathing.breaths())
                .flatExtracting(Breath::phases)
                .extracting(PhaseSpan::phase)
                .containsOnly(BreathPhase.UNKNOWN);
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
