package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlattScaleTest {
    private static PlattScale refit(PlattScale true_, int n) {
        SplittableRandom random = new SplittableRandom(51);
        double[] p = new double[n];
        boolean[] truth = new boolean[n];
        for (int i = 0; i < n; i++) {
            p[i] = 0.02 + 0.96 * random.nextDouble();
            truth[i] = random.nextDouble() < true_.apply(p[i]);
        }
        return PlattScale.fit(p, truth);
    }

    @Test
    void findsTheScaleThatMadeTheOutcomes() {
        PlattScale found = refit(new PlattScale(0.6, -0.8), 20_000);
        assertThat(found.slope()).isCloseTo(0.6, within(0.04));
        assertThat(found.offset()).isCloseTo(-0.8, within(0.06));
    }

    @Test
    void leavesHonestProbabilitiesAlone() {
        PlattScale found = refit(PlattScale.NONE, 20_000);
        assertThat(found.apply(0.3)).isCloseTo(0.3, within(0.02));
        assertThat(found.apply(0.9)).isCloseTo(0.9, within(0.02));
    }

    @Test
    void staysFiniteWhereAllOutcomesAreAlike() {
        PlattScale found = PlattScale.fit(new double[] {0.2, 0.5, 0.9}, new boolean[] {true, true, true});
        assertThat(found.slope()).isFinite();
        assertThat(found.apply(0.5)).isGreaterThan(0.8);
    }

    /** A whole step of Newton's method overshoots there: it ran to slopes of a hundred thousand. Log odds told so many times too large, and so much too low, are put right. */
    @ParameterizedTest
    @CsvSource({"2, 0", "3, 0", "1, -2", "1, -4", "1, 4", "2, -2", "0.2, 0", "-1, 0"})
    void putsProbabilitiesRightThatAreToldMuchTooSurelyOrMuchTooLow(double times, double higher) {
        SplittableRandom random = new SplittableRandom(52);
        double[] p = new double[20_000];
        boolean[] truth = new boolean[p.length];
        for (int i = 0; i < p.length; i++) {
            double logOdds = random.nextDouble(-2, 2);
            truth[i] = random.nextDouble() < Softmax.logistic(logOdds);
            p[i] = Softmax.logistic(times * logOdds + higher);
        }
        PlattScale found = PlattScale.fit(p, truth);
        assertThat(found.slope()).isCloseTo(1 / times, within(0.08 / Math.abs(times)));
        assertThat(found.offset()).isCloseTo(-higher / times, within(0.12));
    }

    /** Where a ranking separates the outcomes, the ridge holds the slope. */
    @Test
    void separableOutcomesDoNotRunAway() {
        double[] p = new double[200];
        boolean[] truth = new boolean[p.length];
        for (int i = 0; i < p.length; i++) {
            truth[i] = i % 2 == 0;
            p[i] = truth[i] ? 0.52 : 0.5;
        }
        PlattScale found = PlattScale.fit(p, truth);
        assertThat(found.slope()).isBetween(1.0, 1000.0);
        assertThat(found.apply(0.52)).isGreaterThan(0.5);
        assertThat(found.apply(0.5)).isLessThan(0.5);
    }
}
