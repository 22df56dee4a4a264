package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import lungwort.golden.Golden;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The area against its definition (Hanley and McNeil, Radiology 1982) and against SciPy's Mann-Whitney U (tests/golden/make_score_golden.py). */
class RocTest {
    static Stream<Golden> cases() {
        return Golden.cases("roc");
    }

    @ParameterizedTest
    @MethodSource("cases")
    void areaIsSciPysMannWhitneyUOverThePairs(Golden golden) {
        double[] negatives = golden.array("negatives");
        double[] positives = golden.array("positives");
        double[] scores =
                Stream.of(negatives, positives).flatMapToDouble(Arrays::stream).toArray();
        boolean[] truth = new boolean[scores.length];
        Arrays.fill(truth, negatives.length, truth.length, true);
        assertThat(Roc.auc(scores, truth)).isEqualTo(golden.number("auc"), within(1e-12));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void areaIsTheShareOfPairsInTheRightOrderTiesHalf(long seed) {
        Random random = new Random(seed);
        double[] scores = random.ints(80, 0, 12).asDoubleStream().toArray();
        boolean[] truth = new boolean[80];
        for (int i = 0; i < truth.length; i++) {
            truth[i] = random.nextInt(12) < scores[i] / 2;
        }
        assertThat(Roc.auc(scores, truth)).isEqualTo(byPairs(scores, truth), within(1e-12));
        int[] twice = random.ints(120, 0, 80).toArray();
        double[] drawnScores = Arrays.stream(twice).mapToDouble(i -> scores[i]).toArray();
        boolean[] drawnTruth = new boolean[twice.length];
        for (int i = 0; i < twice.length; i++) {
            drawnTruth[i] = truth[twice[i]];
        }
        assertThat(new RankedScores(scores, truth).auc(twice))
                .isEqualTo(byPairs(drawnScores, drawnTruth), within(1e-12));
    }

    private static double byPairs(double[] scores, boolean[] truth) {
        double right = 0;
        int pairs = 0;
        for (int p = 0; p < scores.length; p++) {
            for (int n = 0; n < scores.length; n++) {
                if (truth[p] && !truth[n]) {
                    pairs++;
                    right += scores[p] > scores[n] ? 1 : scores[p] == scores[n] ? 0.5 : 0;
                }
            }
        }
        return right / pairs;
    }

    @ParameterizedTest
    @ValueSource(longs = {7, 8, 9})
    void areaUnderTheCurvesTrapezoidsIsTheSame(long seed) {
        Random random = new Random(seed);
        double[] scores = random.ints(60, 0, 9).asDoubleStream().toArray();
        boolean[] truth = new boolean[60];
        for (int i = 0; i < truth.length; i++) {
            truth[i] = random.nextBoolean();
        }
        List<Roc.Point> curve = Roc.curve(scores, truth);
        double area = 0;
        for (int i = 1; i < curve.size(); i++) {
            Roc.Point a = curve.get(i - 1);
            Roc.Point b = curve.get(i);
            area += (b.falsePositiveRate() - a.falsePositiveRate()) * (a.truePositiveRate() + b.truePositiveRate()) / 2;
        }
        assertThat(area).isEqualTo(Roc.auc(scores, truth), within(1e-12));
        assertThat(curve.get(0)).isEqualTo(new Roc.Point(Double.POSITIVE_INFINITY, 0, 0));
        assertThat(curve.get(curve.size() - 1).falsePositiveRate()).isEqualTo(1);
        assertThat(curve.get(curve.size() - 1).truePositiveRate()).isEqualTo(1);
    }

    @Test
    void perfectOrderIsOneReversedIsZeroAllTiedIsHalf() {
        boolean[] truth = {false, false, true, true};
        assertThat(Roc.auc(new double[] {1, 2, 3, 4}, truth)).isEqualTo(1);
        assertThat(Roc.auc(new double[] {4, 3, 2, 1}, truth)).isZero();
        assertThat(Roc.auc(new double[] {5, 5, 5, 5}, truth)).isEqualTo(0.5);
    }

    @Test
    void ofOneKindOnlyTheAreaIsUndefined() {
        assertThat(Roc.auc(new double[] {1, 2}, new boolean[] {true, true})).isNaN();
        assertThat(Roc.auc(new double[0], new boolean[0])).isNaN();
        assertThat(Roc.curve(new double[] {1, 2}, new boolean[] {false, false})).isEmpty();
    }

    @Test
    void bothZerosAreOneScore() {
        double[] scores = {-0.0, 0.0};
        boolean[] truth = {false, true};
        assertThat(new RankedScores(scores, truth).auc(new int[] {0, 1})).isEqualTo(0.5);
        assertThat(Roc.auc(scores, truth)).isEqualTo(0.5);
    }

    @Test
    void aScoreThatIsNotANumberIsAFault() {
        assertThatThrownBy(() -> Roc.auc(new double[] {Double.NaN}, new boolean[] {true}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a score is not a number");
    }
}
