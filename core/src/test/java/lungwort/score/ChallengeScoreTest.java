package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.Stream;
import lungwort.dataset.CycleClass;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import org.junit.jupiter.api.Test;

/**
 * Worked by hand from the definitions of the SPRSound challenge (Zhang et al., IEEE TBioCAS 2022) and of ICBHI 2017 (Rocha et al., Physiol Meas 2019). A second check, by
 * an independent script, is {@link ChallengeScoreGoldenTest}.
 */
class ChallengeScoreTest {
    private static final double EXACT = 1e-12;

    @Test
    void task11CountsNormalsCalledNormalAndAdventitiousCalledAdventitious() {
        // 4 normal, 3 called so: SP = 0.75. 5 adventitious, 2 called so: SE = 0.4.
        TaskScore score = ChallengeScore.task11(
                List.of(false, false, false, false, true, true, true, true, true),
                List.of(false, false, false, true, true, true, false, false, false));
        assertThat(score.specificity()).isEqualTo(0.75, within(EXACT));
        assertThat(score.sensitivity()).isEqualTo(0.4, within(EXACT));
        assertThat(score.averageScore()).isEqualTo(0.575, within(EXACT));
        // 2 * 0.4 * 0.75 / 1.15 = 0.6 / 1.15 = 12 / 23
        assertThat(score.harmonicScore()).isEqualTo(12.0 / 23, within(EXACT));
        assertThat(score.score()).isEqualTo((0.575 + 12.0 / 23) / 2, within(EXACT));
    }

    @Test
    void task12WantsTheExactClassOfAnAdventitiousEvent() {
        // 2 normal, both right: SP = 1. 4 adventitious: wheeze right, fine called coarse, rhonchus called normal,
        // stridor right: SE = 2 / 4.
        TaskScore score = ChallengeScore.task12(
                List.of(
                        EventLabel.NORMAL,
                        EventLabel.NORMAL,
                        EventLabel.WHEEZE,
                        EventLabel.FINE_CRACKLE,
                        EventLabel.RHONCHUS,
                        EventLabel.STRIDOR),
                List.of(
                        EventLabel.NORMAL,
                        EventLabel.NORMAL,
                        EventLabel.WHEEZE,
                        EventLabel.COARSE_CRACKLE,
                        EventLabel.NORMAL,
                        EventLabel.STRIDOR));
        assertThat(score.specificity()).isEqualTo(1);
        assertThat(score.sensitivity()).isEqualTo(0.5);
        // AS = 0.75, HS = 2 / 3, Score = 17 / 24
        assertThat(score.score()).isEqualTo(17.0 / 24, within(EXACT));
    }

    @Test
    void truePoorQualityIsLeftOutWhateverItWasCalled() {
        TaskScore with = ChallengeScore.task21(
                List.of(
                        RecordingVerdict.NORMAL,
                        RecordingVerdict.ADVENTITIOUS,
                        RecordingVerdict.POOR_QUALITY,
                        RecordingVerdict.POOR_QUALITY),
                List.of(
                        RecordingVerdict.NORMAL,
                        RecordingVerdict.ADVENTITIOUS,
                        RecordingVerdict.NORMAL,
                        RecordingVerdict.POOR_QUALITY));
        assertThat(with.score()).isEqualTo(1);
    }

    @Test
    void callingANormalOrAdventitiousRecordingPoorQualityIsAnError() {
        // 2 normal: one called poor, SP = 0.5. 2 adventitious: one called poor, SE = 0.5.
        TaskScore score = ChallengeScore.task21(
                List.of(
                        RecordingVerdict.NORMAL,
                        RecordingVerdict.NORMAL,
                        RecordingVerdict.ADVENTITIOUS,
                        RecordingVerdict.ADVENTITIOUS),
                List.of(
                        RecordingVerdict.NORMAL,
                        RecordingVerdict.POOR_QUALITY,
                        RecordingVerdict.ADVENTITIOUS,
                        RecordingVerdict.POOR_QUALITY));
        assertThat(score.specificity()).isEqualTo(0.5);
        assertThat(score.sensitivity()).isEqualTo(0.5);
    }

    @Test
    void task22WantsTheExactOneOfFiveClasses() {
        // 3 normal, 2 right: SP = 2 / 3. CAS right, DAS called both, both called CAS, both right: SE = 1 / 2. One
        // poor-quality recording does not count.
        TaskScore score = ChallengeScore.task22(
                List.of(
                        RecordingLabel.NORMAL,
                        RecordingLabel.NORMAL,
                        RecordingLabel.NORMAL,
                        RecordingLabel.CAS,
                        RecordingLabel.DAS,
                        RecordingLabel.CAS_AND_DAS,
                        RecordingLabel.CAS_AND_DAS,
                        RecordingLabel.POOR_QUALITY),
                List.of(
                        RecordingLabel.NORMAL,
                        RecordingLabel.NORMAL,
                        RecordingLabel.POOR_QUALITY,
                        RecordingLabel.CAS,
                        RecordingLabel.CAS_AND_DAS,
                        RecordingLabel.CAS,
                        RecordingLabel.CAS_AND_DAS,
                        RecordingLabel.CAS));
        assertThat(score.specificity()).isEqualTo(2.0 / 3, within(EXACT));
        assertThat(score.sensitivity()).isEqualTo(0.5);
        // AS = 7 / 12, HS = (2 / 3) / (7 / 6) = 4 / 7, Score = (49 + 48) / 168
        assertThat(score.score()).isEqualTo(97.0 / 168, within(EXACT));
    }

    @Test
    void icbhiScoreIsTheMeanOfSensitivityAndSpecificityOverCycles() {
        TaskScore score = ChallengeScore.icbhi(
                List.of(CycleClass.NORMAL, CycleClass.NORMAL, CycleClass.CRACKLE, CycleClass.WHEEZE, CycleClass.BOTH),
                List.of(CycleClass.NORMAL, CycleClass.CRACKLE, CycleClass.CRACKLE, CycleClass.BOTH, CycleClass.WHEEZE));
        // Sp = 1 / 2, Se = 1 / 3
        assertThat(ScoreReport.headline(ScoreReport.ICBHI_TASK, score)).isEqualTo(5.0 / 12, within(EXACT));
    }

    @Test
    void identicalAnswersScoreExactlyOne() {
        List<EventLabel> all = Stream.of(EventLabel.values()).toList();
        assertThat(ChallengeScore.task12(all, all)).isEqualTo(new TaskScore(1, 1));
        assertThat(ChallengeScore.task12(all, all).score()).isEqualTo(1);
    }

    @Test
    void nothingRightScoresZeroNotUndefined() {
        TaskScore score = ChallengeScore.task11(List.of(true, false), List.of(false, true));
        assertThat(score.harmonicScore()).isZero();
        assertThat(score.score()).isZero();
    }

    @Test
    void withoutNormalsOrWithoutAdventitiousTheScoreIsUndefined() {
        assertThat(ChallengeScore.task11(List.of(true), List.of(true)).score()).isNaN();
        assertThat(ChallengeScore.task11(List.of(false), List.of(false)).score())
                .isNaN();
        assertThat(ChallengeScore.task11(List.of(), List.of()).defined()).isFalse();
    }

    @Test
    void listsOfDifferentLengthAreAFault() {
        assertThatThrownBy(() -> ChallengeScore.task11(List.of(true), List.of()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("1 true but 0 predicted");
    }
}
