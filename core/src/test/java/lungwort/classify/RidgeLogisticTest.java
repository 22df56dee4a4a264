package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Closed forms of logistic regression, and the condition that any minimum meets. */
class RidgeLogisticTest {
    /** With one column of two values and no ridge the fit gives the observed shares: 3 of 4 and 1 of 5. */
    @Test
    void twoGroupsGetTheirObservedShares() {
        double[][] rows = {{1}, {1}, {1}, {1}, {0}, {0}, {0}, {0}, {0}};
        boolean[] truth = {true, true, true, false, true, false, false, false, false};
        RidgeLogistic fit = RidgeLogistic.fit(rows, truth, 0);
        assertThat(probability(fit, 1)).isCloseTo(0.75, within(1e-5));
        assertThat(probability(fit, 0)).isCloseTo(0.20, within(1e-5));
    }

    /** At the minimum the penalised gradient is nought: sum of (p - y) z = -ridge w. */
    @Test
    void theGradientVanishesAtTheFit() {
        SplittableRandom random = new SplittableRandom(5);
        double[][] rows = new double[200][3];
        boolean[] truth = new boolean[200];
        for (int i = 0; i < rows.length; i++) {
            for (int k = 0; k < 3; k++) {
                rows[i][k] = 10 * k + (k + 1) * random.nextGaussian();
            }
            truth[i] = rows[i][0] + random.nextGaussian() > 0.5;
        }
        double ridge = 7;
        RidgeLogistic fit = RidgeLogistic.fit(rows, truth, ridge);
        double[] gradient = new double[4];
        for (int i = 0; i < rows.length; i++) {
            double error = 1 / (1 + Math.exp(-fit.logOdds(rows[i]))) - (truth[i] ? 1 : 0);
            for (int k = 0; k < 3; k++) {
                double z = (rows[i][k] - fit.mean()[k]) / fit.scale()[k];
                gradient[k] += error * Math.max(-4, Math.min(4, z));
            }
            gradient[3] += error;
        }
        for (int k = 0; k < 3; k++) {
            assertThat(gradient[k]).isCloseTo(-ridge * fit.weights()[k], within(1e-4));
        }
        assertThat(gradient[3]).isCloseTo(0, within(1e-4));
        assertThat(fit.weights()[0]).isGreaterThan(5 * Math.abs(fit.weights()[1]));
    }

    @Test
    void oneOddMeasureDoesNotDecideAlone() {
        RidgeLogistic fit = new RidgeLogistic(new double[] {0}, new double[] {1}, new double[] {1}, 0);
        assertThat(fit.logOdds(new double[] {1e9})).isEqualTo(4);
        assertThat(fit.logOdds(new double[] {-1e9})).isEqualTo(-4);
    }

    @Test
    void numbersThatAreNoneAreRefused() {
        assertThatThrownBy(() -> new RidgeLogistic(new double[1], new double[1], new double[1], 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new RidgeLogistic(new double[2], new double[] {1}, new double[1], 0))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static double probability(RidgeLogistic fit, double value) {
        return 1 / (1 + Math.exp(-fit.logOdds(new double[] {value})));
    }
}
