package lungwort.breath;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import lungwort.practice.BreathPattern;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Expiration that is as loud as inspiration or louder, as over the trachea or with narrow airways, two and three times as long as well (I:E from 1:1 to 1:3), with and without a pause. All truth is
 * synthesised; nothing public tells the phases.
 */
class LoudExpirationTest {
    private static final double[] EXPIRATION_DB = {-3, 0, 3, 6};

    @ParameterizedTest
    @ValueSource(doubles = {8, 12, 20, 30, 45, 60, 70})
    void phasesAreRightOrUnknownButNotSwapped(double perMinute) {
        double told = 0;
        double swapped = 0;
        for (PracticeRecording scene : scenes(perMinute)) {
            Breathing breathing = BreathTracker.track(scene.recording());
            double[] here = compared(scene.truth().breaths(), breathing);
            assertThat(here[1])
                    .as("swapped in %s", scene.scene().breath())
                    .isLessThan(0.3 * Math.max(1, here[0] + here[1]));
            told += here[0] + here[1];
            swapped += here[1];
        }
        assertThat(swapped).isLessThan(0.07 * told);
    }

    @ParameterizedTest
    @ValueSource(doubles = {8, 12, 20, 30, 45, 60, 70})
    void theRateIsRightOrItsIntervalHoldsIt(double perMinute) {
        int right = 0;
        List<PracticeRecording> scenes = scenes(perMinute);
        for (PracticeRecording scene : scenes) {
            Breathing.Rate rate = Objects.requireNonNull(
                    BreathTracker.track(scene.recording()).rate());
            double truth = trueRate(scene.truth().breaths());
            right += Math.abs(rate.perMinute() - truth) <= 1 ? 1 : 0;
            assertThat(truth)
                    .as("%s told for %s", rate, scene.scene().breath())
                    .isBetween(rate.low() - 1, rate.high() + 1);
        }
        assertThat(right).isGreaterThanOrEqualTo((int) (0.8 * scenes.size()));
    }

    @Test
    void whereBothSoundTheSameNoPhaseIsTold() {
        Breathing breathing = BreathTracker.track(scene(70, 0, 0.4, 0.2, 900).recording());
        assertThat(breathing.breaths()).flatMap(Breath::phases).allMatch(span -> span.phase() == BreathPhase.UNKNOWN);
        Breathing.Rate rate = Objects.requireNonNull(breathing.rate());
        assertThat(rate.confidence()).isLessThanOrEqualTo(0.5);
        assertThat(rate.high()).isGreaterThan(65);
    }

    private static List<PracticeRecording> scenes(double perMinute) {
        List<PracticeRecording> scenes = new ArrayList<>();
        long seed = 900;
        for (double db : EXPIRATION_DB) {
            for (int ratio = 1; ratio <= 3; ratio++) {
                double pause = seed % 2 == 0 ? 0.02 : 0.2;
                scenes.add(scene(perMinute, db, (1 - pause) / (1 + ratio), pause, seed++));
            }
        }
        return scenes;
    }

    private static PracticeRecording scene(double perMinute, double db, double share, double pause, long seed) {
        return PracticeScene.scene("loud expiration")
                .seconds(Math.max(15, 4 * 60 / perMinute))
                .seed(seed)
                .breath(new BreathPattern(perMinute, share, pause, 0.06, 0.4, -26, db))
                .heart(perMinute > 35 ? 130 : 75, -30)
                .synthesise();
    }

    /** Seconds in which the right phase is told, and the opposite one. */
    private static double[] compared(List<Breath> truth, Breathing breathing) {
        double[] seconds = new double[2];
        for (Breath breath : truth) {
            for (PhaseSpan span : breath.phases()) {
                for (double t = span.startSeconds() + 0.02; t < span.endSeconds(); t += 0.05) {
                    PhaseSpan found = breathing.phaseAt(t);
                    boolean flow = found != null
                            && span.phase() != BreathPhase.PAUSE
                            && (found.phase() == BreathPhase.INSPIRATION || found.phase() == BreathPhase.EXPIRATION);
                    if (flow) {
                        seconds[Objects.requireNonNull(found).phase() == span.phase() ? 0 : 1] += 0.05;
                    }
                }
            }
        }
        return seconds;
    }

    private static double trueRate(List<Breath> breaths) {
        double first = breaths.get(0).startSeconds();
        double last = breaths.get(breaths.size() - 1).startSeconds();
        return 60 * (breaths.size() - 1) / (last - first);
    }
}
