package lungwort.heart;

import static org.assertj.core.api.Assertions.assertThat;

import lungwort.audio.Recording;
import lungwort.practice.AddedSound;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import lungwort.signal.Butterworth;
import lungwort.signal.ChestViews;
import lungwort.signal.Statistics;
import lungwort.sound.ContinuousSoundFinder;
import lungwort.sound.CrackleFinder;
import org.junit.jupiter.api.Test;

/** Lowering takes the heart away and leaves what is measured of wheeze and crackle: 0.5 dB and 2 % of a crackle's peak are the tolerances. */
class HeartLoweringTest {
    private static final double WHEEZE_TOLERANCE_DB = 0.5;
    private static final double CRACKLE_TOLERANCE = 0.02;

    @Test
    void theHeartBandFallsByTenDecibelsAtTheBeats() {
        PracticeRecording scene = PracticeScene.scene("heart").heart(75, -14).synthesise();
        double before = HeartFinder.find(scene.recording()).prominenceDb();
        HeartBeats found = HeartFinder.find(scene.recording());
        Recording lowered = HeartLowering.lower(scene.recording(), found);
        double[] was = band(scene.recording(), 30, 130);
        double[] is = band(lowered, 30, 130);
        double fall = 0;
        for (HeartBeats.Beat beat : found.beats()) {
            int from = (int) Math.max(0, (beat.seconds() - 0.03) * 8000);
            int to = (int) Math.min(was.length, (beat.seconds() + 0.03) * 8000);
            fall += rmsDb(was, from, to) - rmsDb(is, from, to);
        }
        assertThat(before).isGreaterThan(12);
        assertThat(fall / found.beats().size()).isGreaterThan(10);
    }

    @Test
    void aWheezeKeepsItsLevelAtEveryMoment() {
        for (double hz : new double[] {200, 250, 400, 800}) {
            PracticeRecording scene = PracticeScene.scene("wheeze")
                    .heart(75, -20)
                    .add(AddedSound.Tone.pure(2, 4, hz, -24))
                    .synthesise();
            double[] was = band(scene.recording(), 0.9 * hz, 1.1 * hz);
            double[] is = band(HeartLowering.lower(scene.recording()), 0.9 * hz, 1.1 * hz);
            for (int from = (int) (2.2 * 8000); from < 5.8 * 8000; from += 800) {
                assertThat(rmsDb(is, from, from + 800))
                        .isBetween(
                                rmsDb(was, from, from + 800) - WHEEZE_TOLERANCE_DB,
                                rmsDb(was, from, from + 800) + WHEEZE_TOLERANCE_DB);
            }
        }
    }

    @Test
    void aCrackleKeepsItsDeflections() {
        for (double twoCycleMs : new double[] {5, 10}) {
            PracticeRecording scene = PracticeScene.scene("crackles")
                    .heart(75, -20)
                    .add(new AddedSound.SingleCrackle(3.01, twoCycleMs * 0.15, twoCycleMs, -10))
                    .add(new AddedSound.SingleCrackle(3.43, twoCycleMs * 0.15, twoCycleMs, -10))
                    .synthesise();
            double[] was = band(scene.recording(), 200, 3000);
            double[] is = band(HeartLowering.lower(scene.recording()), 200, 3000);
            for (double at : new double[] {3.01, 3.43}) {
                for (int i = (int) (at * 8000); i < (at + twoCycleMs / 1000) * 8000; i++) {
                    assertThat(Math.abs(is[i] - was[i])).isLessThan(CRACKLE_TOLERANCE * Math.pow(10, -10 / 20.0));
                }
            }
        }
    }

    @Test
    void theFindersMeasureTheSameWheezesAndCracklesAfterwards() {
        for (String id : new String[] {"wheeze", "fine-crackles"}) {
            PracticeScene.Builder builder = PracticeScene.scene(id).heart(75, -20);
            Recording before = (id.equals("wheeze")
                            ? builder.add(AddedSound.Tone.wheeze(3, 1, 420, 390, -24))
                            : builder.add(new AddedSound.SingleCrackle(3.2, 0.7, 5, -10)))
                    .synthesise()
                    .recording();
            ChestViews plain = ChestViews.of(before);
            ChestViews lowered = ChestViews.of(HeartLowering.lower(before));
            var wheezes = ContinuousSoundFinder.find(lowered);
            assertThat(wheezes).hasSameSizeAs(ContinuousSoundFinder.find(plain));
            for (int i = 0; i < wheezes.size(); i++) {
                var was = ContinuousSoundFinder.find(plain).get(i);
                assertThat(wheezes.get(i).startSeconds())
                        .isBetween(was.startSeconds() - 0.02, was.startSeconds() + 0.02);
                assertThat(wheezes.get(i).endSeconds()).isBetween(was.endSeconds() - 0.02, was.endSeconds() + 0.02);
            }
            assertThat(CrackleFinder.find(lowered)).hasSameSizeAs(CrackleFinder.find(plain));
        }
    }

    @Test
    void withoutAHeartNothingChanges() {
        Recording recording = PracticeScene.scene("breath").synthesise().recording();
        assertThat(HeartLowering.lower(recording, HeartBeats.NONE)).isSameAs(recording);
    }

    private static double[] band(Recording recording, double lowHz, double highHz) {
        return Butterworth.bandPass(2, lowHz, highHz, recording.sampleRateHz()).filtFilt(recording.samples());
    }

    private static double rmsDb(double[] x, int from, int to) {
        return 20 * Math.log10(Statistics.rms(java.util.Arrays.copyOfRange(x, from, to)));
    }
}
