package lungwort.heart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import lungwort.breath.BreathPhase;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.practice.AddedSound;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import lungwort.signal.ChestViews;
import lungwort.sound.ContinuousSoundFinder;
import lungwort.sound.CrackleFinder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Why examinations leave heart sounds as they are: with a heart whose peak stands up to 18 dB over the loudest breath the finders and the breath tracker find what they find without it. All synthesised;
 * core/BREATHS.md tells what lowering did on ICBHI.
 */
class LoudHeartTest {
    @ParameterizedTest
    @CsvSource({"75, -20", "130, -20", "75, -14", "130, -14", "75, -8"})
    void aLoudHeartIsTakenForNoSoundAndHidesNoWheezeNorTheRate(double perMinute, double peakDb) {
        PracticeRecording plain = scene(perMinute, peakDb).synthesise();
        ChestViews views = ChestViews.of(plain.recording());
        assertThat(ContinuousSoundFinder.find(views)).isEmpty();
        assertThat(CrackleFinder.find(views)).isEmpty();
        assertRate(plain);
        PracticeRecording wheezing = scene(perMinute, peakDb)
                .eachPhase(
                        BreathPhase.EXPIRATION,
                        span -> List.of(AddedSound.Tone.wheeze(span.startSeconds() + 0.2, 1, 400, 380, -30)))
                .synthesise();
        assertThat(ContinuousSoundFinder.find(ChestViews.of(wheezing.recording())))
                .hasSameSizeAs(wheezing.truth().continuous());
        assertRate(wheezing);
    }

    private static void assertRate(PracticeRecording scene) {
        Breathing.Rate rate =
                Objects.requireNonNull(BreathTracker.track(scene.recording()).rate());
        assertThat(rate.perMinute()).isCloseTo(15, within(1.0));
    }

    private static PracticeScene.Builder scene(double perMinute, double peakDb) {
        return PracticeScene.scene("loud heart").seed(5).heart(perMinute, peakDb);
    }
}
