package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

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
}
