package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.quality.Quality;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;

/** Worked by hand; the proportion of the cycle occupied by wheeze is CORSA's measure (Sovijärvi et al., Eur Respir Rev 2000) [S]. */
class PhaseSummaryTest {
    private static final List<PhaseSpan> BREATH =
            List.of(new PhaseSpan(0, 1, BreathPhase.INSPIRATION, 1), new PhaseSpan(1, 3, BreathPhase.EXPIRATION, 1));

    @Test
    void wheezeCountsInEachPhaseItReachesAndTwoAtOnceCountOnce() {
        List<PhaseSummary> summaries = PhaseSummary.of(examination(wheeze(0.5, 2), wheeze(1.5, 2.5)));
        assertThat(summaries).hasSize(2);
        assertThat(summaries.get(0).continuousShare()).isCloseTo(0.5, within(1e-12));
        assertThat(summaries.get(1).continuousShare()).isCloseTo(0.75, within(1e-12));
    }

    @Test
    void cracklesAreCountedByPhase() {
        Evidence crackle = new Evidence(
                new Crackle(SoundKind.FINE_CRACKLE, 0.8, 0.81, 0.7, 5, 0.6, 12), BreathPhase.INSPIRATION, 0.8);
        List<PhaseSummary> summaries = PhaseSummary.of(examination(crackle, crackle));
        assertThat(summaries.get(0).crackles()).isEqualTo(2);
        assertThat(summaries.get(1).crackles()).isZero();
        assertThat(summaries.get(1).seconds()).isCloseTo(2, within(1e-12));
    }

    private static Evidence wheeze(double start, double end) {
        return new Evidence(
                new ContinuousSound(SoundKind.WHEEZE, start, end, List.of(), 400, 0, false, 1, 20),
                BreathPhase.EXPIRATION,
                0.5);
    }

    private static Examination examination(Evidence... evidence) {
        return new Examination(
                "worked example",
                3,
                SourceFormat.memory(4000),
                Suggestion.BOTH,
                new Examination.Probabilities(0.9, 0.9, 0),
                new Quality(true, List.of()),
                new Breathing(List.of(new Breath(0, 3, BREATH, 1)), null),
                List.of(evidence),
                List.of(),
                "none");
    }
}
