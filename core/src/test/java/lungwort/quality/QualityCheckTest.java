package lungwort.quality;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import lungwort.audio.Recording;
import lungwort.practice.AddedSound.Disturbance;
import lungwort.practice.AddedSound.Tone;
import lungwort.practice.BreathPattern;
import lungwort.practice.Device;
import lungwort.practice.PracticeCase;
import lungwort.practice.PracticeScene;
import lungwort.practice.PracticeScenes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Each reason on both sides of its limit, with synthesised sound ([C]: the limits are common practice). */
class QualityCheckTest {
    static List<PracticeCase> chest() {
        return PracticeScenes.chest();
    }

    @ParameterizedTest
    @MethodSource("chest")
    void aGoodRecordingHasNoFaultWhateverTheChestSays(PracticeCase one) {
        assertThat(check(one.scene()).findings()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "clipped, CLIPPED, false",
        "handling, FRICTION, false",
        "handling, HANDLING, false",
        "noisy-room, NOISY, false",
        "talking, TALKING, false",
        "music, NOISY, true",
        "heart-only, MOSTLY_HEART, false",
        "dropouts, DROPOUTS, true",
        "hum, HUM, true",
        "too-quiet, TOO_QUIET, true",
        "silence, SILENT, false",
    })
    void aSpoiltRecordingIsToldWhy(String id, QualityIssue issue, boolean usable) {
        Quality quality = check(PracticeScenes.of(id).scene());
        assertThat(quality.findings()).extracting(Quality.Finding::issue).contains(issue);
        assertThat(quality.usable()).isEqualTo(usable);
    }

    @Test
    void threeSecondsAreLongEnoughAndLessIsTooShort() {
        assertThat(issues(scene().seconds(2.9))).contains(QualityIssue.TOO_SHORT);
        assertThat(issues(scene().seconds(3.1))).doesNotContain(QualityIssue.TOO_SHORT);
    }

    @Test
    void anEmptyRecordingIsTooShortAndSilent() {
        Quality quality = QualityCheck.check(new Recording(new double[0], 4000, "empty"));
        assertThat(quality.findings())
                .extracting(Quality.Finding::issue)
                .containsExactlyInAnyOrder(QualityIssue.TOO_SHORT, QualityIssue.SILENT);
    }

    @Test
    void oneStepOfSixteenBitsIsSilence() {
        assertThat(issues(square(8, 1.0 / 32768))).contains(QualityIssue.SILENT);
        assertThat(issues(square(8, 4.0 / 32768))).doesNotContain(QualityIssue.SILENT);
    }

    @Test
    void levelsNearTheStepsOfSixteenBitsAreTooQuiet() {
        assertThat(issues(scene().breath(BreathPattern.RESTING.level(-60)).roomNoise(-75)))
                .contains(QualityIssue.TOO_QUIET);
        assertThat(issues(scene().breath(BreathPattern.RESTING.level(-45)).roomNoise(-75)))
                .doesNotContain(QualityIssue.TOO_QUIET);
    }

    @Test
    void flatTopsAreOverdriveWhateverTheirHeight() {
        assertThat(issues(scene().device(Device.FLAT.clippingAt(0.08)))).contains(QualityIssue.CLIPPED);
        assertThat(issues(scene().device(Device.FLAT.clippingAt(0.5)))).doesNotContain(QualityIssue.CLIPPED);
    }

    @Test
    void aRoomAsLoudAsTheBreathIsTooNoisy() {
        assertThat(issues(scene().roomNoise(-26))).contains(QualityIssue.NOISY);
        assertThat(issues(scene().roomNoise(-45))).doesNotContain(QualityIssue.NOISY);
    }

    @Test
    void withoutBreathAndWithoutAnotherReasonNoBreathIsHeard() {
        assertThat(issues(scene().breath(BreathPattern.NONE).roomNoise(-58))).contains(QualityIssue.NO_BREATH);
        assertThat(issues(scene())).doesNotContain(QualityIssue.NO_BREATH);
    }

    @Test
    void oneSlowBreathIsTooFew() {
        assertThat(issues(scene().breath(BreathPattern.RESTING.at(8)).seconds(9)))
                .contains(QualityIssue.TOO_FEW_BREATHS);
        assertThat(issues(scene().breath(BreathPattern.RESTING.at(20)).seconds(12)))
                .doesNotContain(QualityIssue.TOO_FEW_BREATHS);
    }

    @Test
    void theHeartAloneIsMostlyHeart() {
        assertThat(issues(scene().breath(BreathPattern.NONE).heart(70, -20))).contains(QualityIssue.MOSTLY_HEART);
        assertThat(issues(scene().heart(70, -20))).doesNotContain(QualityIssue.MOSTLY_HEART);
    }

    @ParameterizedTest
    @CsvSource({"50", "60"})
    void humIsToldWithItsFrequency(int hz) {
        Quality quality = check(scene().hum(hz, -40).build());
        assertThat(detail(quality, QualityIssue.HUM))
                .hasValueSatisfying(d -> assertThat(d).startsWith(hz + " Hz"));
        assertThat(issues(scene().hum(hz, -75))).doesNotContain(QualityIssue.HUM);
    }

    @Test
    void aHeartOfFiftyOrSixtyHertzIsNoHum() {
        assertThat(issues(scene().heart(120, -14))).doesNotContain(QualityIssue.HUM);
    }

    @ParameterizedTest
    @CsvSource({"600", "900", "1200"})
    void theBandLimitIsToldInHertz(double hz) {
        PracticeScene scene =
                scene().roomNoise(-50).device(Device.FLAT.band(0, hz)).build();
        double found = QualityCheck.measure(scene.synthesise().recording()).bandLimitHz();
        assertThat(found).isBetween(0.85 * hz, 1.15 * hz);
        assertThat(check(scene).findings()).extracting(Quality.Finding::issue).contains(QualityIssue.BAND_LIMITED);
        assertThat(issues(scene().roomNoise(-50).device(Device.FLAT.band(0, 3000))))
                .doesNotContain(QualityIssue.BAND_LIMITED);
    }

    @Test
    void sixSecondsOfTalkAreTalkingAndOneWordIsNot() {
        assertThat(issues(scene().add(new Disturbance(Disturbance.Kind.SPEECH, 2, 6, -20))))
                .contains(QualityIssue.TALKING);
        assertThat(issues(scene().add(new Disturbance(Disturbance.Kind.SPEECH, 2, 0.5, -20))))
                .doesNotContain(QualityIssue.TALKING);
    }

    @Test
    void aWheezeOrRhonchusIsNoTalk() {
        List<Tone> tones = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            tones.add(Tone.rhonchus(1 + 3.5 * i, 1.6, 130 + 15 * i, -20));
            tones.add(Tone.wheeze(2.7 + 3.5 * i, 1, 300 + 60 * i, 320 + 60 * i, -20));
        }
        assertThat(issues(scene().add(tones))).doesNotContain(QualityIssue.TALKING);
    }

    @Test
    void touchesAgainAndAgainAreHandlingAndTwoAreNot() {
        assertThat(issues(scene().add(touches(15)))).contains(QualityIssue.HANDLING);
        assertThat(issues(scene().add(touches(2)))).doesNotContain(QualityIssue.HANDLING);
    }

    @Test
    void rubbingForSecondsIsFriction() {
        assertThat(issues(scene().add(new Disturbance(Disturbance.Kind.RUB, 3, 6, -12))))
                .contains(QualityIssue.FRICTION);
        assertThat(issues(scene().add(new Disturbance(Disturbance.Kind.RUB, 3, 0.4, -12))))
                .doesNotContain(QualityIssue.FRICTION);
    }

    @Test
    void coughsAreEventsAndNoFault() {
        Quality quality = check(PracticeScenes.of("cough").scene());
        assertThat(quality.usable()).isTrue();
        assertThat(quality.findings()).isEmpty();
        assertThat(quality.events()).extracting(Quality.Event::kind).containsOnly(Quality.EventKind.COUGH);
        double[] starts = {4.2, 4.8, 11.0};
        assertThat(quality.events()).hasSize(starts.length);
        for (int i = 0; i < starts.length; i++) {
            assertThat(quality.events().get(i).startSeconds()).isBetween(starts[i] - 0.1, starts[i] + 0.1);
        }
    }

    @Test
    void gapsOfAnEighthOfTheTimeAreDropoutsAndOneShortGapIsNot() {
        List<Disturbance> gaps = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            gaps.add(new Disturbance(Disturbance.Kind.DROPOUT, 1 + 1.7 * i, 0.25, 0));
        }
        assertThat(issues(scene().add(gaps))).contains(QualityIssue.DROPOUTS);
        assertThat(issues(scene().add(gaps.subList(0, 1)))).doesNotContain(QualityIssue.DROPOUTS);
    }

    @Test
    void automaticGainShowsInTheNoise() {
        assertThat(issues(scene().roomNoise(-55).device(Device.FLAT.withAutomaticGain())))
                .contains(QualityIssue.AUTOMATIC_GAIN);
        assertThat(issues(scene().roomNoise(-55).device(Device.FLAT.gain(12))))
                .doesNotContain(QualityIssue.AUTOMATIC_GAIN);
    }

    @Test
    void noiseSuppressionShowsInSuddenFalls() {
        assertThat(issues(scene().roomNoise(-55).device(Device.FLAT.gatedBelow(-45))))
                .contains(QualityIssue.NOISE_SUPPRESSED);
        assertThat(issues(scene().roomNoise(-55))).doesNotContain(QualityIssue.NOISE_SUPPRESSED);
    }

    @ParameterizedTest
    @EnumSource(QualityIssue.class)
    void everyReasonSaysWhatIsWrongAndWhatToDoInOneSentenceEach(QualityIssue issue) {
        assertThat(issue.id()).matches("[a-z]+(-[a-z]+)*");
        assertThat(issue.reason()).endsWith(".").doesNotContain(". ");
        assertThat(issue.remedy()).endsWith(".").doesNotContain(". ");
    }

    @Test
    void measuresAreFiniteEvenOfNothing() {
        for (double seconds : new double[] {0, 0.01, 1, 5}) {
            QualityMeasures m = QualityCheck.measure(new Recording(new double[(int) (seconds * 4000)], 4000, "zeros"));
            assertThat(m.numbers().values()).allMatch(Double::isFinite);
        }
        assertThat(QualityCheck.measure(scene().synthesise().recording())
                        .numbers()
                        .values())
                .allMatch(Double::isFinite);
    }

    @ParameterizedTest
    @CsvSource({"9, true, false", "5, true, true", "13, false, false"})
    void aChestPieceThatLeavesTheChestIsLifted(int untilSeconds, boolean told, boolean grave) {
        Quality quality = QualityCheck.check(lifted(untilSeconds, 0));
        assertThat(quality.has(QualityIssue.LIFTED)).isEqualTo(told);
        assertThat(quality.findings())
                .filteredOn(f -> f.issue() == QualityIssue.LIFTED)
                .allMatch(f -> f.grave() == grave);
    }

    @Test
    void pressingLessFirmlyIsNotLifting() {
        assertThat(issues(lifted(9, 0.25))).doesNotContain(QualityIssue.LIFTED);
    }

    /** On the chest until a second, then the room, with a share of the chest's sound left. */
    private static Recording lifted(int untilSeconds, double left) {
        Recording on = scene().heart(75, -24).synthesise().recording();
        double[] off =
                scene().breath(BreathPattern.NONE).synthesise().recording().samples();
        double[] x = on.samples();
        for (int i = untilSeconds * on.sampleRateHz(); i < x.length; i++) {
            x[i] = left * x[i] + off[i];
        }
        return on.with(x, on.sampleRateHz());
    }

    private static List<Disturbance> touches(int n) {
        List<Disturbance> touches = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            touches.add(new Disturbance(Disturbance.Kind.THUMP, 0.5 + i * 14.0 / n, 0.3, -4));
        }
        return touches;
    }

    private static PracticeScene.Builder scene() {
        return PracticeScene.scene("test").seed(11);
    }

    private static Quality check(PracticeScene scene) {
        return QualityCheck.check(scene.synthesise().recording());
    }

    private static List<QualityIssue> issues(PracticeScene.Builder scene) {
        return issues(scene.synthesise().recording());
    }

    private static List<QualityIssue> issues(Recording recording) {
        return QualityCheck.check(recording).findings().stream()
                .map(Quality.Finding::issue)
                .toList();
    }

    private static Optional<String> detail(Quality quality, QualityIssue issue) {
        return quality.findings().stream()
                .filter(f -> f.issue() == issue)
                .map(Quality.Finding::detail)
                .findFirst();
    }

    /** Random steps between plus and minus one height. */
    private static Recording square(double seconds, double height) {
        Random random = new Random(7);
        double[] x = new double[(int) (seconds * 4000)];
        for (int i = 0; i < x.length; i++) {
            x[i] = random.nextBoolean() ? height : -height;
        }
        return new Recording(x, 4000, "steps");
    }
}
