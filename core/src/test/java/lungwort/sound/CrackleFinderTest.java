package lungwort.sound;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.practice.AddedSound.Disturbance;
import lungwort.practice.AddedSound.SingleCrackle;
import lungwort.practice.AddedSound.Tone;
import lungwort.practice.BreathPattern;
import lungwort.practice.Device;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import lungwort.practice.PracticeScenes;
import lungwort.signal.ChestViews;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Damped pulses of the published shape, alone and in synthesised breath noise. Definitions and sources: {@link SoundLimits}. */
class CrackleFinderTest {
    /**
     * ATS 1977 [M]: fine IDW 0.7 ms, 2CD 5 ms; coarse 1.5 and 10. NEJM 2014 [S]: about 5 and about 15 ms. CORSA [S]: the limit is 2CD 10 ms, any crackle below 20 ms. The high-pass that
     * keeps heart sounds out shortens the slowest crackles by a tenth.
     */
    @ParameterizedTest
    @CsvSource({
        "0.7, 5, FINE_CRACKLE",
        "0.5, 3.3, FINE_CRACKLE",
        "1.35, 9, FINE_CRACKLE",
        "1.65, 11, COARSE_CRACKLE",
        "2.25, 15, COARSE_CRACKLE",
        "2.7, 18, COARSE_CRACKLE"
    })
    void widthsAreMeasured(double idwMs, double twoCycleMs, SoundKind kind) {
        for (int rate : new int[] {4000, 8000, 10_000, 44_100}) {
            PracticeRecording made = quiet().rate(rate)
                    .add(new SingleCrackle(1.5, idwMs, twoCycleMs, -12))
                    .synthesise();
            Crackle truth = made.truth().crackles().get(0);
            assertThat(find(made)).singleElement().satisfies(found -> {
                assertThat(found.kind()).isEqualTo(kind);
                assertThat(found.startSeconds()).isCloseTo(1.5, within(0.0003));
                assertThat(found.initialDeflectionWidthMs()).isCloseTo(idwMs, within(0.10 * idwMs));
                assertThat(found.twoCycleDurationMs()).isCloseTo(twoCycleMs, within(0.13 * twoCycleMs));
                assertThat(found.largestDeflectionWidthMs())
                        .isCloseTo(truth.largestDeflectionWidthMs(), within(0.12 * truth.largestDeflectionWidthMs()));
            });
        }
    }

    /** CORSA [S]: any crackle's two cycles take less than 20 ms. */
    @ParameterizedTest
    @ValueSource(doubles = {26, 40})
    void longerThan20MsIsNoCrackle(double twoCycleMs) {
        PracticeRecording made = quiet().add(new SingleCrackle(1.5, 0.15 * twoCycleMs, twoCycleMs, -12))
                .synthesise();
        assertThat(find(made)).isEmpty();
    }

    @Test
    void eachFineCrackleInTheBreathIsFoundAndTimed() {
        checkTrain("fine-crackles", SoundKind.FINE_CRACKLE, 0.95);
    }

    @Test
    void mostCoarseCracklesInTheBreathAreFoundAndTimed() {
        checkTrain("coarse-crackles", SoundKind.COARSE_CRACKLE, 0.85);
    }

    private static void checkTrain(String id, SoundKind kind, double leastShare) {
        PracticeRecording made = PracticeScenes.of(id).scene().synthesise();
        List<Crackle> found = find(made);
        List<Crackle> truth = made.truth().crackles();
        long hit = truth.stream()
                .filter(t -> found.stream().anyMatch(f -> matches(f, t)))
                .count();
        assertThat((double) hit / truth.size()).isGreaterThanOrEqualTo(leastShare);
        assertThat(found.stream().filter(f -> truth.stream().noneMatch(t -> matches(f, t))))
                .isEmpty();
        long named = found.stream().filter(f -> f.kind() == kind).count();
        assertThat((double) named / found.size()).isGreaterThan(0.95);
    }

    private static boolean matches(Crackle found, Crackle truth) {
        return found.startSeconds() > truth.startSeconds() - 0.005 && found.startSeconds() < truth.endSeconds();
    }

    @ParameterizedTest
    @ValueSource(ints = {50, 72, 110, 160})
    void heartSoundsAreNoCrackles(int perMinute) {
        PracticeRecording alone = PracticeScene.scene("heart")
                .breath(BreathPattern.NONE)
                .heart(perMinute, -14)
                .synthesise();
        assertThat(find(alone)).isEmpty();
        assertThat(find(PracticeScene.scene("heart").heart(perMinute, -20).synthesise()))
                .isEmpty();
    }

    @ParameterizedTest
    @ValueSource(ints = {4000, 8000, 44_100})
    void touchesOfTheChestPieceAreNoCrackles(int rate) {
        PracticeScene.Builder scene = quiet().seconds(12).rate(rate).seed(5);
        for (int i = 0; i < 10; i++) {
            scene.add(new Disturbance(Disturbance.Kind.CLICK, 1 + i, 0.05, -6 - i));
        }
        assertThat(find(scene.synthesise())).hasSizeLessThanOrEqualTo(1);
    }

    @Test
    void bumpsOfTheChestPieceAreNoCrackles() {
        PracticeScene.Builder scene = PracticeScene.scene("bumps").seconds(12).seed(5);
        for (int i = 0; i < 10; i++) {
            scene.add(new Disturbance(Disturbance.Kind.THUMP, 1 + i, 0.3, -6 - i));
        }
        assertThat(find(scene.synthesise())).hasSizeLessThanOrEqualTo(1);
    }

    /** Murphy et al., NEJM 1977 [P]: discontinuous deflections usually under 10 ms, continuous sounds usually over 250 ms: the start of a tone is no crackle. */
    @Test
    void theStartOfAToneIsNoCrackle() {
        PracticeScene.Builder scene = PracticeScene.scene("tones").seconds(8);
        for (int i = 0; i < 6; i++) {
            scene.add(new Tone(SoundKind.WHEEZE, 1 + i, 0.4, 300 + 60 * i, 300 + 60 * i, -18, 0, 0, 0, 0, 0.002));
        }
        assertThat(find(scene.synthesise())).isEmpty();
    }

    @Test
    void musicAndWheezesAreNoCrackles() {
        assertThat(find(PracticeScenes.of("wheeze").scene().synthesise())).isEmpty();
        assertThat(find(PracticeScenes.of("rhonchus").scene().synthesise())).isEmpty();
        assertThat(find(PracticeScenes.of("music").scene().synthesise())).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {-40, 6})
    void theDevicesGainDoesNotMatter(double gainDb) {
        PracticeScene scene = PracticeScenes.of("fine-crackles").scene();
        List<Crackle> reference = find(scene.synthesise());
        PracticeScene other = new PracticeScene(
                scene.name(),
                scene.durationSeconds(),
                scene.sampleRateHz(),
                scene.seed(),
                scene.breath(),
                scene.heart(),
                scene.sounds(),
                scene.roomNoiseDb(),
                scene.humHz(),
                scene.humDb(),
                Device.FLAT.gain(gainDb));
        List<Crackle> found = find(other.synthesise());
        assertThat(found).hasSameSizeAs(reference);
        for (int i = 0; i < found.size(); i++) {
            assertThat(found.get(i).startSeconds()).isCloseTo(reference.get(i).startSeconds(), within(1e-4));
            assertThat(found.get(i).largestDeflectionWidthMs())
                    .isCloseTo(reference.get(i).largestDeflectionWidthMs(), within(0.02));
        }
    }

    @Test
    void silenceAndVeryShortRecordingsHoldNothing() {
        assertThat(CrackleFinder.find(ChestViews.of(new Recording(new double[40_000], 8000, "silent"))))
                .isEmpty();
        for (int length : new int[] {0, 1, 63, 64, 100, 600}) {
            double[] x = new double[length];
            Arrays.fill(x, 0.5);
            assertThat(CrackleFinder.find(ChestViews.of(new Recording(x, 8000, "short"))))
                    .isEmpty();
        }
    }

    @Test
    void aCrackleInDigitalSilenceIsFound() {
        double[] x = new double[16_000];
        CrackleShape shape = new CrackleShape(0.7, 5);
        for (int i = 0; i < 40; i++) {
            x[8000 + i] = 0.3 * shape.at(i / 8.0);
        }
        assertThat(CrackleFinder.find(ChestViews.of(new Recording(x, 8000, "one"))))
                .singleElement()
                .satisfies(found -> assertThat(found.prominenceDb()).isBetween(40.0, 100.0));
    }

    private static PracticeScene.Builder quiet() {
        return PracticeScene.scene("quiet")
                .seconds(3)
                .breath(BreathPattern.NONE)
                .roomNoise(-70);
    }

    private static List<Crackle> find(PracticeRecording made) {
        return CrackleFinder.find(ChestViews.of(made.recording()));
    }
}
