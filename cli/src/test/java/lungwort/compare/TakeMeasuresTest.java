package lungwort.compare;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import lungwort.audio.Recording;
import lungwort.examine.BreathingPause;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;

/** The numbers of a take against what follows from how the signal was made. */
class TakeMeasuresTest {
    private static final Examination EXAMINATION = Takes.examination(Suggestion.BOTH, 1.0, 4);

    private static double value(TakeMeasures take, Measure measure) {
        return Objects.requireNonNull(take.value(measure), measure.id());
    }

    /** White noise of variance s^2 has a one-sided density of 2 s^2 / rate: a band of b Hz holds 10 lg(2 s^2 b / rate) dB. */
    @Test
    void theLevelOfWhiteNoiseFollowsFromItsVariance() {
        TakeMeasures take = TakeMeasures.of(Takes.noise(0.1, 12, Takes.RATE_HZ, 1), EXAMINATION);
        Measure[] bands = {Measure.LEVEL_100_200, Measure.LEVEL_200_400, Measure.LEVEL_400_800};
        double widthHz = 100;
        for (Measure band : bands) {
            double expected = 10 * Math.log10(2 * 0.01 * widthHz / Takes.RATE_HZ);
            assertThat(value(take, band)).as(band.id()).isCloseTo(expected, within(0.7));
            widthHz *= 2;
        }
        assertThat(value(take, Measure.TILT)).isCloseTo(10 * Math.log10(4), within(0.7));
        double density = 10 * Math.log10(2 * 0.01 / Takes.RATE_HZ);
        assertThat(take.spectrum().levelsDb().subList(0, 12))
                .allSatisfy(db -> assertThat(db).isCloseTo(density, within(1.2)));
    }

    /** Where the model cannot tell there is no probability to compare, and no number of what it can miss; what was measured is compared. */
    @Test
    void whereNothingStandsOutThereIsNoProbability() {
        Recording noise = Takes.noise(0.1, 12, Takes.RATE_HZ, 1);
        TakeMeasures take = TakeMeasures.of(noise, Takes.examination(Suggestion.NONE_STANDS_OUT, 0, 0));
        assertThat(take.usable()).isTrue();
        assertThat(take.values())
                .doesNotContainKeys(Measure.CONTINUOUS_PROBABILITY, Measure.DISCONTINUOUS_PROBABILITY)
                .doesNotContainKeys(Measure.WHEEZE_SHARE, Measure.CRACKLES_PER_BREATH);
        assertThat(TakeMeasures.of(noise, Takes.examination(Suggestion.NONE_STANDS_OUT, 0, 3))
                        .values())
                .containsEntry(Measure.CRACKLES_PER_BREATH, 3.0);
        assertThat(TakeMeasures.of(noise, Takes.unlikeLearnt(Suggestion.CONTINUOUS, 1, 0))
                        .values())
                .containsKeys(Measure.WHEEZE_SHARE, Measure.CONTINUOUS_PROBABILITY)
                .doesNotContainKeys(Measure.CRACKLES_PER_BREATH, Measure.DISCONTINUOUS_PROBABILITY);
        assertThat(TakeMeasures.ofAll(noise, Takes.unlikeLearnt(Suggestion.CONTINUOUS, 1, 0))
                        .values())
                .as("how far numbers differ by chance is measured on all")
                .containsEntry(Measure.CRACKLES_PER_BREATH, 0.0);
        assertThat(TakeMeasures.of(noise, Takes.examination(Suggestion.NONE_HEARD, 0, 0))
                        .values())
                .containsEntry(Measure.CONTINUOUS_PROBABILITY, 50.0)
                .containsEntry(Measure.DISCONTINUOUS_PROBABILITY, 25.0);
    }

    /** Whoever looks for a row in vain reads why it is not there: crackles can be there and be missed, and so can all sounds where nothing stands out. */
    @Test
    void rowsThatAreLeftOutAreNamedWithTheReason() {
        Recording noise = Takes.noise(0.1, 12, Takes.RATE_HZ, 1);
        TakeMeasures told = TakeMeasures.of(noise, Takes.examination(Suggestion.BOTH, 1, 3));
        TakeMeasures oneKind = TakeMeasures.of(noise, Takes.unlikeLearnt(Suggestion.CONTINUOUS, 1, 0));
        TakeMeasures none = TakeMeasures.of(noise, Takes.examination(Suggestion.NONE_STANDS_OUT, 0, 0));

        assertThat(notComparable(told, told)).isEmpty();
        assertThat(notComparable(told, oneKind))
                .containsExactly("Left out: crackles in each breath, probability of crackles. In " + oneKind.name()
                        + " such sounds can be there and be missed: a number would read as if there were none.");
        assertThat(notComparable(none, oneKind))
                .containsExactly(
                        "Left out: share of the breathing filled by continuous sounds, crackles in each breath, probability of a continuous sound, probability of crackles. In "
                                + none.name() + " and " + oneKind.name()
                                + " such sounds can be there and be missed: a number would read as if there were none.");
    }

    private static List<String> notComparable(TakeMeasures a, TakeMeasures b) {
        return Comparer.standard().compare(a, b, Relation.EARLIER_LATER, true).notComparable();
    }

    @Test
    void twiceTheAmplitudeIsSixDecibelsInEveryBandAndNothingElse() {
        Recording soft = Takes.noise(0.05, 12, Takes.RATE_HZ, 2);
        double[] x = soft.samples();
        for (int i = 0; i < x.length; i++) {
            x[i] *= 2;
        }
        TakeMeasures a = TakeMeasures.of(soft, EXAMINATION);
        TakeMeasures b = TakeMeasures.of(soft.with(x, Takes.RATE_HZ), EXAMINATION);
        for (Measure measure : Measure.values()) {
            double expected = measure.needs() == Measure.Needs.SAME_GAIN ? 20 * Math.log10(2) : 0;
            assertThat(value(b, measure) - value(a, measure)).as(measure.id()).isCloseTo(expected, within(1e-6));
        }
    }

    /** Half the amplitude while breathing out is -6 dB; contrast the same, since both phases fill more than a tenth of the time. */
    @Test
    void breathingOutAtHalfTheAmplitudeIsSixDecibelsSofter() {
        double[] x = Takes.noise(0.1, 12, Takes.RATE_HZ, 3).samples();
        for (int i = 0; i < x.length; i++) {
            double inBreath = (double) i / Takes.RATE_HZ % 4;
            x[i] *= inBreath < 1.6 ? 1 : inBreath < 3.6 ? 0.5 : 0.01;
        }
        TakeMeasures take = TakeMeasures.of(new Recording(x, Takes.RATE_HZ, "breaths"), EXAMINATION);
        assertThat(value(take, Measure.EXPIRATION_LEVEL)).isCloseTo(-6.02, within(0.7));
        assertThat(value(take, Measure.CONTRAST)).isGreaterThan(6);
    }

    /** Wheeze of 1 s in breaths of 4 s: CORSA's share of the cycle is 25 %; 1.6 s of 4 s are breathing in. */
    @Test
    void breathAndEvidenceMeasures() {
        TakeMeasures take = TakeMeasures.of(Takes.noise(0.1, 12, Takes.RATE_HZ, 4), EXAMINATION);
        assertThat(value(take, Measure.RATE)).isEqualTo(15);
        assertThat(value(take, Measure.INSPIRATION_SHARE)).isCloseTo(40, within(1e-9));
        assertThat(value(take, Measure.WHEEZE_SHARE)).isCloseTo(25, within(1e-9));
        assertThat(value(take, Measure.DOMINANT_HZ)).isEqualTo(400);
        assertThat(value(take, Measure.CRACKLES_PER_BREATH)).isEqualTo(4);
        assertThat(value(take, Measure.CONTINUOUS_PROBABILITY)).isEqualTo(50);
        assertThat(value(take, Measure.DISCONTINUOUS_PROBABILITY)).isEqualTo(25);
    }

    /** As everywhere else: a rate over nine seconds without a breath would be half of that of the breaths beside them. */
    @Test
    void acrossAStretchWithoutABreathNoRateIsTold() {
        Examination paused = new Examination(
                EXAMINATION.origin(),
                EXAMINATION.durationSeconds(),
                EXAMINATION.source(),
                EXAMINATION.suggestion(),
                EXAMINATION.probabilities(),
                EXAMINATION.quality(),
                EXAMINATION.breathing(),
                EXAMINATION.evidence(),
                EXAMINATION.events(),
                List.of(new BreathingPause(2, 11)),
                EXAMINATION.reasons(),
                EXAMINATION.model());
        TakeMeasures take = TakeMeasures.of(Takes.noise(0.1, 12, Takes.RATE_HZ, 4), paused);
        assertThat(take.value(Measure.RATE)).isNull();
        assertThat(value(take, Measure.INSPIRATION_SHARE)).isCloseTo(40, within(1e-9));
    }

    @Test
    void aBandThatTheRecordingCannotHoldHasNoLevel() {
        TakeMeasures take = TakeMeasures.of(Takes.noise(0.1, 12, 2000, 5), EXAMINATION);
        assertThat(take.value(Measure.LEVEL_800_1600)).isNull();
        assertThat(take.value(Measure.LEVEL_400_800)).isNotNull();
        assertThat(take.highestHz()).isEqualTo(1000);
    }

    @Test
    void nothingIsMadeUpForAnEmptyOrAnUnusableRecording() {
        Examination unusable =
                Takes.examination(Suggestion.CANNOT_TELL, lungwort.breath.Breathing.NONE, List.of(), false);
        TakeMeasures empty = TakeMeasures.of(new Recording(new double[0], Takes.RATE_HZ, "empty"), unusable);
        assertThat(empty.values()).isEmpty();
        assertThat(empty.spectrum().levelsDb()).isEmpty();
        TakeMeasures silent =
                TakeMeasures.of(new Recording(new double[8 * Takes.RATE_HZ], Takes.RATE_HZ, "silent"), unusable);
        assertThat(silent.values()).doesNotContainKeys(Measure.WHEEZE_SHARE, Measure.RATE);
        assertThat(silent.values().values()).allMatch(Double::isFinite);
        assertThat(silent.value(Measure.LEVEL_200_400)).isEqualTo(TakeMeasures.FLOOR_DB);
    }

    @Test
    void aTakeThatCannotBeJudgedHasNoEvidence() {
        Recording noise = Takes.noise(0.1, 12, Takes.RATE_HZ, 6);
        TakeMeasures take = TakeMeasures.of(noise, Takes.examination(Suggestion.CANNOT_TELL, 1.0, 4));
        assertThat(take.usable()).isFalse();
        assertThat(take.values())
                .containsKey(Measure.LEVEL_200_400)
                .doesNotContainKeys(
                        Measure.WHEEZE_SHARE,
                        Measure.CRACKLES_PER_BREATH,
                        Measure.DOMINANT_HZ,
                        Measure.CONTINUOUS_PROBABILITY);
    }
}
