package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class SoftmaxRegressionTest {
    /** At the optimum the penalised gradient is zero (Hastie, Tibshirani, Friedman, Elements of Statistical Learning, 4.4): mean probability = class share. */
    @Test
    void theMeanProbabilityOfEachClassIsItsShare() {
        Rows rows = Rows.quadrants(500, 5, 4, 41);
        LinearSoftmax fitted =
                SoftmaxRegression.fit(rows.x, rows.y, rows.weight, 4, new SoftmaxRegression.Settings(5, 500));
        double[] mean = new double[4];
        double[] share = new double[4];
        for (int i = 0; i < rows.y.length; i++) {
            double[] p = fitted.probabilities(rows.x[i]);
            share[rows.y[i]] += 1.0 / rows.y.length;
            for (int c = 0; c < 4; c++) {
                mean[c] += p[c] / rows.y.length;
            }
        }
        for (int c = 0; c < 4; c++) {
            assertThat(mean[c]).isCloseTo(share[c], within(1e-3));
        }
    }

    @Test
    void aHeavyPenaltyLeavesOnlyTheClassShares() {
        Rows rows = Rows.quadrants(300, 5, 2, 42);
        LinearSoftmax fitted =
                SoftmaxRegression.fit(rows.x, rows.y, rows.weight, 2, new SoftmaxRegression.Settings(1e5, 200));
        long ones = java.util.Arrays.stream(rows.y).filter(y -> y == 1).count();
        assertThat(fitted.probabilities(rows.x[0])[1]).isCloseTo((double) ones / rows.y.length, within(5e-3));
    }
}
