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

    /** Prints the figures of core/BREATHS.md. */
    @Test
    void overAllScenesPhasesAndRatesAreSeldomWrong() {
        double[] seconds = new double[4];
        int right = 0;
        int all = 0;
        for (double perMinute : new double[] {8, 12, 20, 30, 45, 60, 70}) {
            for (PracticeRecording scene : scenes(perMinute)) {
                List<Breath> truth = scene.truth().breaths();
                Breathing breathing = BreathTracker.track(scene.recording());
                double[] here = told(truth, breathing);
                java.util.Arrays.setAll(seconds, i -> seconds[i] + here[i]);
                Breathing.Rate rate = Objects.requireNonNull(breathing.rate());
                right += Math.abs(rate.perMinute() - trueRate(truth)) <= 1 ? 1 : 0;
                all++;
            }
        }
        double total = java.util.Arrays.stream(seconds).sum();
        System.out.printf(
                "%d scenes of loud expiration: rate within 1/min in %.0f %%; of the time in inspiration and expiration %.0f %% told right, %.0f %% swapped, %.0f %% unknown, %.0f %% told as a pause%n",
                all,
                100.0 * right / all,
                100 * seconds[0] / total,
                100 * seconds[1] / total,
                100 * seconds[2] / total,
                100 * seconds[3] / total);
        assertThat(right).isGreaterThan((int) (0.9 * all));
        assertThat(seconds[1]).isLessThan(0.05 * total);
    }

    /** Seconds of flow told right, swapped, unknown (or in no breath), and as a pause. */
    private static double[] told(List<Breath> truth, Breathing breathing) {
        double[] compared = compared(truth, breathing);
        double[] told = {compared[0], compared[1], 0, 0};
        for (Breath breath : truth) {
            for (PhaseSpan span : breath.phases()) {
                for (double t = span.startSeconds() + 0.02; t < span.endSeconds(); t += 0.05) {
                    PhaseSpan found = span.phase() == BreathPhase.PAUSE ? null : breathing.phaseAt(t);
                    boolean unknown = span.phase() != BreathPhase.PAUSE
                            && (found == null || found.phase() == BreathPhase.UNKNOWN);
                    told[2] += unknown ? 0.05 : 0;
                    told[3] += found != null && found.phase() == BreathPhase.PAUSE ? 0.05 : 0;
                }
            }
        }
        return told;
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
