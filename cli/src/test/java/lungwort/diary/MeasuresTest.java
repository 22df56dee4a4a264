package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.quality.Quality;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;

/** Wheeze share: the proportion of the respiratory cycle occupied by wheeze, CORSA (Sovijarvi et al., Eur Respir Rev 2000) [S]; worked by hand. */
class MeasuresTest {
    private static Evidence evidence(MeasuredSound sound) {
        return new Evidence(sound, BreathPhase.UNKNOWN, Double.NaN);
    }

    private static Evidence wheeze(double start, double end, double hz) {
        return evidence(new ContinuousSound(SoundKind.WHEEZE, start, end, List.of(), hz, 0, false, 1, 10));
    }

    private static Evidence crackle(double start) {
        return evidence(new Crackle(SoundKind.COARSE_CRACKLE, start, start + 0.01, 1.5, 10, 2, 10));
    }

    private static Examination examination(List<Breath> breaths, Evidence... evidence) {
        return new Examination(
                "a",
                10,
                SourceFormat.memory(4000),
                Suggestion.NONE_HEARD,
                new Examination.Probabilities(0, 0, 0),
                new Quality(true, List.of()),
                new Breathing(breaths, null),
                List.of(evidence),
                List.of(),
                "m");
    }

    private static Breath breath(double start, double end) {
        return new Breath(start, end, List.of(), 1);
    }

    @Test
    void theShareIsOfTheBreathsAndWhatLiesOutsideThemDoesNotCount() {
        // 1 s inside the breath of 4 s, 1 s after it.
        Measures m = Measures.of(examination(List.of(breath(0, 4)), wheeze(3, 5, 300)));

        assertThat(m.wheezeShare()).isCloseTo(0.25, within(1e-12));
    }

    @Test
    void soundsThatOverlapCountOnce() {
        Measures m = Measures.of(examination(List.of(breath(0, 4)), wheeze(1, 2, 300), wheeze(1.5, 2.5, 500)));

        assertThat(m.wheezeShare()).isCloseTo(1.5 / 4, within(1e-12));
        assertThat(m.dominantHz()).isEqualTo(400);
    }

    @Test
    void withoutBreathsTheShareIsOfTheRecordingAndCracklesABreathAreNotKnown() {
        Measures m = Measures.of(examination(List.of(), wheeze(1, 2, 300), crackle(3)));

        assertThat(m.wheezeShare()).isCloseTo(0.1, within(1e-12));
        assertThat(m.cracklesPerBreath()).isNull();
        assertThat(m.crackles()).isEqualTo(1);
    }

    @Test
    void cracklesBetweenBreathsAreNotOfABreath() {
        Measures m = Measures.of(
                examination(List.of(breath(0, 2), breath(3, 5)), crackle(0), crackle(1), crackle(2.5), crackle(4)));

        assertThat(m.cracklesPerBreath()).isEqualTo(1.5);
        assertThat(m.crackles()).isEqualTo(4);
    }

    @Test
    void nothingMeasuredIsNothingAndNotNormal() {
        Measures m = Measures.of(examination(List.of()));

        assertThat(m.ratePerMinute()).isNull();
        assertThat(m.dominantHz()).isNull();
        assertThat(m.wheezeShare()).isZero();
    }
}
