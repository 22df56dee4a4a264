package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.audio.Recording;
import lungwort.breath.BandLevelMeter;
import lungwort.practice.AddedSound.Disturbance;
import lungwort.practice.BreathPattern;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import lungwort.practice.PracticeScenes;
import lungwort.quality.QualityCheck;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Pauses in breathing on synthesised chests, where the truth is known. Lengths: 20 s is an apnoea (American Academy of Pediatrics 2003, second-hand), 6 s is told [C]. */
class BreathingPausesTest {
    private static final double LOUD = -26;
    private static final double NO_BREATH = -150;
    private static final double ROOM = -62;

    static List<BreathingPause> in(Recording recording) {
        return BreathingPauses.in(recording, BandLevelMeter.of(recording), QualityCheck.check(recording));
    }

    private static PracticeRecording held(double ratePerMinute, double roomDb, double seconds) {
        return PracticeScene.scene("held")
                .seconds(20 + seconds)
                .seed(3)
                .breath(BreathPattern.RESTING.at(ratePerMinute).held(8, seconds))
                .heart(ratePerMinute > 30 ? 130 : 70, -24)
                .roomNoise(roomDb)
                .synthesise();
    }

    /** Room and heart of their own, without a join that could be heard. */
    private static Recording part(double seconds, double breathDb, double roomDb, boolean heart, long seed) {
        PracticeScene.Builder scene = PracticeScene.scene("part")
                .seconds(seconds)
                .seed(seed)
                .breath(BreathPattern.RESTING.level(breathDb))
                .roomNoise(roomDb);
        return (heart ? scene.heart(70, -24) : scene).synthesise().recording();
    }

    private static Recording joined(Recording... parts) {
        double[] samples = Arrays.stream(parts)
                .flatMapToDouble(p -> Arrays.stream(p.samples()))
                .toArray();
        return new Recording(samples, parts[0].sampleRateHz(), "joined");
    }

    @ParameterizedTest
    @CsvSource({
        "8, -62, 8",
        "8, -50, 12",
        "8, -62, 22",
        "15, -62, 8",
        "15, -50, 12",
        "15, -50, 22",
        "40, -62, 8",
        "40, -50, 12",
        "40, -62, 22"
    })
    void aPauseAmongBreathsIsFoundWhereItIs(double rate, double roomDb, double seconds) {
        PracticeRecording chest = held(rate, roomDb, seconds);
        var breaths = chest.truth().breaths();
        int before = IntStream.range(0, breaths.size() - 1)
                .filter(i -> breaths.get(i + 1).startSeconds() - breaths.get(i).endSeconds() > 1)
                .findFirst()
                .orElseThrow();

        List<BreathingPause> pauses = in(chest.recording());

        assertThat(pauses).hasSize(1);
        double stillFrom = breaths.get(before).endSeconds();
        // The end of an expiration is too soft to be heard, a tenth of the breath or so: the stretch begins there.
        assertThat(pauses.get(0).startSeconds()).isBetween(stillFrom - 0.35 * 60 / rate, stillFrom + 0.1);
        assertThat(pauses.get(0).endSeconds()).isCloseTo(breaths.get(before + 1).startSeconds(), within(0.5));
    }

    @ParameterizedTest
    @CsvSource({"8, 0", "8, 4", "15, 0", "15, 4", "40, 0", "40, 4", "60, 0"})
    void calmBreathingAndPausesOf4SecondsAreNotTold(double rate, double seconds) {
        assertThat(in(held(rate, ROOM, seconds).recording())).isEmpty();
    }

    @Test
    void twoPausesAreTwo() {
        Recording twice =
                joined(held(40, ROOM, 8).recording(), held(40, ROOM, 10).recording());

        assertThat(in(twice)).hasSize(2);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-34, -38, -42, -46, -50, -54, -58})
    void softBreathsAreNoPause(double softDb) {
        Recording soft =
                joined(part(8, LOUD, ROOM, true, 1), part(10, softDb, ROOM, true, 2), part(8, LOUD, ROOM, true, 3));

        assertThat(in(soft)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {-56, -62, -70})
    void aLiftedChestPieceIsNoPause(double roomDb) {
        Recording lifted = joined(
                part(12, LOUD, ROOM, true, 1), part(8, NO_BREATH, roomDb, false, 2), part(18, LOUD, ROOM, true, 3));

        assertThat(in(lifted)).isEmpty();
    }

    @Test
    void theSameStretchWithTheHeartGoingOnIsOne() {
        Recording kept =
                joined(part(12, LOUD, ROOM, true, 1), part(8, NO_BREATH, ROOM, true, 2), part(18, LOUD, ROOM, true, 3));

        assertThat(in(kept)).hasSize(1);
    }

    @Test
    void missingSamplesAreNoPause() {
        PracticeScene.Builder scene = PracticeScene.scene("cut").seconds(30).heart(70, -24);
        scene.add(new Disturbance(Disturbance.Kind.DROPOUT, 10, 9, 0));

        assertThat(in(scene.synthesise().recording())).isEmpty();
    }

    @Test
    void talkInsteadOfBreathIsNoPause() {
        PracticeScene.Builder scene =
                PracticeScene.scene("talk").seconds(30).heart(70, -24).breath(BreathPattern.RESTING.held(8, 10));
        scene.add(new Disturbance(Disturbance.Kind.SPEECH, 9, 8, -25));

        assertThat(in(scene.synthesise().recording())).isEmpty();
    }

    /** How long it lasted nobody can say: at least so long (common practice [C]). */
    @Test
    void whatTheEndOfTheRecordingCutsLastedAtLeastSoLong() {
        Recording endsStill = joined(part(10, LOUD, ROOM, true, 1), part(10, NO_BREATH, ROOM, true, 2));

        List<BreathingPause> pauses = in(endsStill);

        assertThat(pauses).hasSize(1);
        BreathingPause pause = pauses.get(0);
        assertThat(pause.cut()).isEqualTo(BreathingPause.Cut.END);
        // The end of the last expiration is too soft to be heard.
        assertThat(pause.startSeconds()).isBetween(8.0, 10.2);
        assertThat(pause.endSeconds()).isCloseTo(20, within(0.1));
        assertThat(pause.words())
                .matches("From [0-9.]+ s to the end of the recording, for at least 1[01] s, no breath was found\\.");
    }

    @Test
    void whatTheStartOfTheRecordingCutsToo() {
        Recording beginsStill = joined(part(10, NO_BREATH, ROOM, true, 1), part(10, LOUD, ROOM, true, 2));

        List<BreathingPause> pauses = in(beginsStill);

        assertThat(pauses).hasSize(1);
        assertThat(pauses.get(0).cut()).isEqualTo(BreathingPause.Cut.START);
        assertThat(pauses.get(0).startSeconds()).isZero();
        assertThat(pauses.get(0).endSeconds()).isBetween(9.5, 11.0);
        assertThat(pauses.get(0).words())
                .startsWith("From the start of the recording to ")
                .contains("for at least ");
    }

    @Test
    void aRecordingWithoutABreathHasNoPause() {
        assertThat(in(part(15, NO_BREATH, ROOM, true, 1))).isEmpty();
        assertThat(in(part(30, NO_BREATH, ROOM, true, 2))).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {2, 3, 4})
    void aFewSecondsAtEitherEndAreNotTold(double seconds) {
        Recording begins = joined(part(seconds, NO_BREATH, ROOM, true, 1), part(20, LOUD, ROOM, true, 2));
        Recording ends = joined(part(20, LOUD, ROOM, true, 1), part(seconds, NO_BREATH, ROOM, true, 2));

        assertThat(in(begins)).isEmpty();
        assertThat(in(ends)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {-34, -42, -50, -58})
    void softBreathsAtTheEndAreNoPause(double softDb) {
        assertThat(in(joined(part(12, LOUD, ROOM, true, 1), part(10, softDb, ROOM, true, 2))))
                .isEmpty();
        assertThat(in(joined(part(10, softDb, ROOM, true, 1), part(12, LOUD, ROOM, true, 2))))
                .isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {-56, -62, -70})
    void aChestPieceNotYetOrNoLongerOnTheChestIsNoPause(double roomDb) {
        Recording early = joined(part(8, NO_BREATH, roomDb, false, 1), part(20, LOUD, ROOM, true, 2));
        Recording late = joined(part(20, LOUD, ROOM, true, 1), part(8, NO_BREATH, roomDb, false, 2));

        assertThat(in(early)).isEmpty();
        assertThat(in(late)).isEmpty();
    }

    @Test
    void aShortFileHasNone() {
        BreathPattern held = BreathPattern.RESTING.at(40).held(1.5, 2);

        assertThat(in(PracticeScene.scene("short")
                        .seconds(5)
                        .breath(held)
                        .synthesise()
                        .recording()))
                .isEmpty();
        assertThat(in(new Recording(new double[0], 8000, "empty"))).isEmpty();
        assertThat(in(new Recording(new double[400], 8000, "silent"))).isEmpty();
    }

    @Test
    void noOtherPracticeSoundHasOne() {
        for (var one : PracticeScenes.all()) {
            boolean pause = one.id().equals("pause");
            assertThat(in(one.scene().synthesise().recording())).as(one.id()).hasSize(pause ? 1 : 0);
        }
    }
}
