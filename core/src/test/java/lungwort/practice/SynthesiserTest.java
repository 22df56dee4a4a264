package lungwort.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class SynthesiserTest {
    static List<PracticeCase> cases() {
        return PracticeScenes.all();
    }

    @ParameterizedTest
    @MethodSource("cases")
    void everySceneIsMadeTheSameTwiceAndStaysInFullScale(PracticeCase one) {
        Recording first = one.scene().synthesise().recording();
        Recording second = one.scene().synthesise().recording();
        assertThat(first.samples()).isEqualTo(second.samples());
        assertThat(Arrays.stream(first.samples()).allMatch(v -> v >= -1 && v <= 1))
                .isTrue();
        assertThat(first.durationSeconds()).isEqualTo(one.scene().durationSeconds());
    }

    @ParameterizedTest
    @ValueSource(ints = {4000, 8000, 10_000, 44_100})
    void theTruthDoesNotDependOnTheSampleRate(int rate) {
        PracticeRecording made = crackling().rate(rate).synthesise();
        PracticeRecording reference = crackling().rate(8000).synthesise();
        assertThat(made.truth()).isEqualTo(reference.truth());
        assertThat(made.recording().sampleRateHz()).isEqualTo(rate);
        assertThat(Levels.rms(made.recording().samples()))
                .isCloseTo(
                        Levels.rms(reference.recording().samples()),
                        within(0.1 * Levels.rms(reference.recording().samples())));
    }

    @Test
    void anotherSeedGivesOtherNoise() {
        assertThat(crackling().seed(1).synthesise().recording().samples())
                .isNotEqualTo(crackling().seed(2).synthesise().recording().samples());
    }

    @Test
    void breathsFollowTheirPattern() {
        Truth truth = PracticeScene.scene("steady")
                .seconds(20.5)
                .breath(BreathPattern.RESTING.at(30).steady())
                .synthesise()
                .truth();
        assertThat(truth.breaths()).hasSize(11);
        Breath breath = truth.breaths().get(3);
        assertThat(breath.endSeconds() - breath.startSeconds()).isCloseTo(2, within(1e-9));
        assertThat(breath.phases())
                .extracting(span -> span.phase())
                .containsExactly(BreathPhase.INSPIRATION, BreathPhase.EXPIRATION, BreathPhase.PAUSE);
        assertThat(breath.phases().get(0).endSeconds() - breath.startSeconds()).isCloseTo(0.8, within(1e-9));
    }

    @Test
    void inspirationIsLouderThanExpirationAndThePauseIsStill() {
        PracticeRecording made = PracticeScene.scene("plain").synthesise();
        double[] level = new double[3];
        for (Breath breath : made.truth().breaths().subList(0, 3)) {
            for (int i = 0; i < 3; i++) {
                var span = breath.phases().get(i);
                level[i] += Levels.rms(made.recording()
                        .slice(span.startSeconds(), span.endSeconds())
                        .samples());
            }
        }
        assertThat(level[0]).isGreaterThan(1.5 * level[1]);
        assertThat(level[1]).isGreaterThan(3 * level[2]);
    }

    /** CORSA 2000 (Sovijarvi et al.) [M]: the usual sound over the chest lies mostly below 200-300 Hz. */
    @Test
    void theUsualSoundLiesMostlyBelow300Hz() {
        double[] all = PracticeScene.scene("plain")
                .roomNoise(-90)
                .synthesise()
                .recording()
                .samples();
        double[] low = Biquad.lowPass(300, Math.sqrt(0.5), 8000)
                .apply(Biquad.lowPass(300, Math.sqrt(0.5), 8000).apply(all.clone()));
        assertThat(Math.pow(Levels.rms(low) / Levels.rms(all), 2)).isBetween(0.6, 0.95);
    }

    @Test
    void aToneHasItsLevelAndFrequency() {
        PracticeRecording made = PracticeScene.scene("tone")
                .breath(BreathPattern.NONE)
                .roomNoise(-120)
                .seconds(2)
                .add(AddedSound.Tone.pure(0.5, 1, 400, -20))
                .synthesise();
        double[] tone = made.recording().slice(0.6, 1.4).samples();
        int crossings = 0;
        for (int i = 1; i < tone.length; i++) {
            crossings += tone[i - 1] < 0 && tone[i] >= 0 ? 1 : 0;
        }
        assertThat(crossings / 0.8).isCloseTo(400, within(2.0));
        assertThat(20 * Math.log10(Levels.rms(tone))).isCloseTo(-20, within(0.1));
        assertThat(made.truth().continuous()).singleElement().satisfies(w -> {
            assertThat(w.kind()).isEqualTo(SoundKind.WHEEZE);
            assertThat(w.dominantHz()).isEqualTo(400);
        });
    }

    @Test
    void theDeviceClipsAndDropsOut() {
        Recording clipped = PracticeScenes.of("clipped").scene().synthesise().recording();
        long full =
                Arrays.stream(clipped.samples()).filter(v -> Math.abs(v) == 1).count();
        assertThat((double) full / clipped.length()).isGreaterThan(0.02);
        Recording holes = PracticeScenes.of("dropouts").scene().synthesise().recording();
        assertThat(holes.slice(0.9, 1.15).samples()).containsOnly(0);
    }

    private static PracticeScene.Builder crackling() {
        return PracticeScene.scene("crackling")
                .seconds(10)
                .heart(70, -30)
                .eachPhase(
                        BreathPhase.INSPIRATION,
                        span -> CrackleTrain.fine(span.startSeconds(), span.endSeconds(), 8, -15, 3));
    }
}
