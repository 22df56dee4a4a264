package lungwort.sound;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.LongFunction;
import lungwort.breath.BreathPhase;
import lungwort.practice.AddedSound.Tone;
import lungwort.practice.CrackleTrain;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import lungwort.signal.ChestViews;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * How much is found, and how much of what is found is there, at several levels over the breath sound, at the false-alarm rate that {@link FalseAlarmTest} holds. Levels: the breath sound peaks
 * at -26 dB full scale RMS in inspiration and -34 dB in expiration; crackles lie in inspiration with their peak given, wheezes in expiration with their RMS. Synthesised truth only.
 *
 * <p>The least shares stand two standard errors (4 recordings, about 100 crackles) below what was measured.
 */
class SensitivityTest {
    private static final int RECORDINGS = 4;

    /** Fine crackles with a peak 14 dB and more over the breath's RMS are found and named; at 6 dB half of them are lost. */
    @ParameterizedTest
    @CsvSource({"-8, 0.98, 0.95", "-12, 0.95, 0.95", "-16, 0.70, 0.90", "-20, 0.38, 0.85"})
    void fineCrackles(double peakDb, double recall, double precision) {
        check(
                "fine",
                peakDb,
                recall,
                precision,
                seed -> PracticeScene.scene("fine")
                        .seed(seed)
                        .eachPhase(
                                BreathPhase.INSPIRATION,
                                span -> CrackleTrain.fine(
                                        span.startSeconds() + 0.1, span.endSeconds() - 0.1, 8, peakDb, seed))
                        .synthesise());
    }

    /** Coarse crackles share their band with the breath sound: they need 18 dB. */
    @ParameterizedTest
    @CsvSource({"-4, 0.95, 0.95", "-8, 0.75, 0.95", "-12, 0.32, 0.90"})
    void coarseCrackles(double peakDb, double recall, double precision) {
        check(
                "coarse",
                peakDb,
                recall,
                precision,
                seed -> PracticeScene.scene("coarse")
                        .seed(seed)
                        .eachPhase(
                                BreathPhase.INSPIRATION,
                                span -> CrackleTrain.coarse(
                                        span.startSeconds() + 0.1, span.endSeconds() - 0.1, 6, peakDb, seed))
                        .synthesise());
    }

    /** Tones of 250 ms are found under the breath: at 400 and 800 Hz 14 dB below the breath's level in inspiration (6 below that in expiration), at 130 and 220 Hz 4 dB below. */
    @ParameterizedTest
    @CsvSource({
        "400, -26, 1.00, 0.95",
        "400, -34, 0.98, 0.95",
        "400, -40, 0.90, 0.90",
        "220, -30, 0.95, 0.95",
        "130, -30, 0.95, 0.95",
        "800, -40, 0.98, 0.95"
    })
    void tones(double hz, double rmsDb, double recall, double precision) {
        check(
                "tone",
                rmsDb,
                recall,
                precision,
                seed -> PracticeScene.scene("tone")
                        .seed(seed)
                        .eachPhase(
                                BreathPhase.EXPIRATION,
                                span -> List.of(Tone.pure(span.startSeconds() + 0.3, 0.25, hz, rmsDb)))
                        .synthesise());
    }

    private static void check(
            String what,
            double levelDb,
            double leastRecall,
            double leastPrecision,
            LongFunction<PracticeRecording> maker) {
        int truths = 0;
        int hits = 0;
        int founds = 0;
        int right = 0;
        for (int i = 0; i < RECORDINGS; i++) {
            PracticeRecording made = maker.apply(500 + i);
            List<MeasuredSound> truth = made.truth().sounds();
            List<MeasuredSound> found = found(made);
            truths += truth.size();
            founds += found.size();
            hits += (int) truth.stream()
                    .filter(t -> found.stream().anyMatch(f -> meet(f, t)))
                    .count();
            right += (int) found.stream()
                    .filter(f -> truth.stream().anyMatch(t -> meet(f, t)))
                    .count();
        }
        double recall = (double) hits / truths;
        double precision = founds == 0 ? 1 : (double) right / founds;
        System.out.printf(
                "%s at %.0f dB: found %.2f of %d, right %.2f of %d%n",
                what, levelDb, recall, truths, precision, founds);
        assertThat(recall).as("share found").isGreaterThanOrEqualTo(leastRecall);
        assertThat(precision).as("share right").isGreaterThanOrEqualTo(leastPrecision);
    }

    private static List<MeasuredSound> found(PracticeRecording made) {
        ChestViews views = ChestViews.of(made.recording());
        List<MeasuredSound> found = new ArrayList<>(ContinuousSoundFinder.find(views));
        found.addAll(CrackleFinder.find(views));
        return found;
    }

    /** A sound meets the truth if it is of its kind and its middle lies within it, 5 ms to spare. */
    private static boolean meet(MeasuredSound found, MeasuredSound truth) {
        double middle = (found.startSeconds() + found.endSeconds()) / 2;
        return found.kind() == truth.kind()
                && middle > truth.startSeconds() - 0.005
                && middle < truth.endSeconds() + 0.005;
    }
}
