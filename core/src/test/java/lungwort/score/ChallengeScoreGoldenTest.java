package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import lungwort.dataset.CycleClass;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.golden.Golden;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The scores against tests/golden/challenge_scores.py, which shares no code with them and counts in exact fractions. */
class ChallengeScoreGoldenTest {
    static Stream<Golden> cases() {
        return Golden.cases("challenge-scores");
    }

    @ParameterizedTest
    @MethodSource("cases")
    void scoresAreThoseOfTheIndependentScript(Golden golden) {
        String task = golden.text("task");
        TaskScore score = score(task, golden);
        assertThat(score.sensitivity()).isEqualTo(golden.number("SE"), within(1e-12));
        assertThat(score.specificity()).isEqualTo(golden.number("SP"), within(1e-12));
        assertThat(score.averageScore()).isEqualTo(golden.number("AS"), within(1e-12));
        assertThat(score.harmonicScore()).isEqualTo(golden.number("HS"), within(1e-12));
        assertThat(ScoreReport.headline(task, score)).isEqualTo(golden.number("score"), within(1e-12));
    }

    private static TaskScore score(String task, Golden golden) {
        return switch (task) {
            case "1-1" ->
                ChallengeScore.task11(
                        labels(golden, "truth", "adventitious"::equals),
                        labels(golden, "called", "adventitious"::equals));
            case "1-2" ->
                ChallengeScore.task12(
                        labels(golden, "truth", EventLabel::ofId), labels(golden, "called", EventLabel::ofId));
            case "2-1" ->
                ChallengeScore.task21(
                        labels(golden, "truth", ChallengeScoreGoldenTest::verdict),
                        labels(golden, "called", ChallengeScoreGoldenTest::verdict));
            case "2-2" ->
                ChallengeScore.task22(
                        labels(golden, "truth", RecordingLabel::ofId), labels(golden, "called", RecordingLabel::ofId));
            case "icbhi-4" ->
                ChallengeScore.icbhi(
                        labels(golden, "truth", ChallengeScoreGoldenTest::cycle),
                        labels(golden, "called", ChallengeScoreGoldenTest::cycle));
            default -> throw new IllegalArgumentException(task);
        };
    }

    private static <T> List<T> labels(Golden golden, String key, Function<String, T> parse) {
        return golden.texts(key).stream().map(parse).toList();
    }

    private static RecordingVerdict verdict(String id) {
        return Arrays.stream(RecordingVerdict.values())
                .filter(v -> v.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private static CycleClass cycle(String id) {
        return Arrays.stream(CycleClass.values())
                .filter(c -> c.id().equals(id))
                .findFirst()
                .orElseThrow();
    }
}
