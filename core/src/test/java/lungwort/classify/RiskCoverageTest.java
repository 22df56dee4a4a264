package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** By hand from the definitions of El-Yaniv and Wiener, J Mach Learn Res 2010. */
class RiskCoverageTest {
    @Test
    void riskIsTheShareOfWrongAnswersAmongThoseGiven() {
        RiskCoverage curve =
                RiskCoverage.of(new double[] {0.9, 0.6, 0.8, 0.7}, new boolean[] {true, false, true, false});
        assertThat(curve.points())
                .containsExactly(
                        new RiskCoverage.Point(0.9, 0.25, 0),
                        new RiskCoverage.Point(0.8, 0.5, 0),
                        new RiskCoverage.Point(0.7, 0.75, 1.0 / 3),
                        new RiskCoverage.Point(0.6, 1, 0.5));
        assertThat(curve.area()).isEqualTo((0 + 0 + 1.0 / 3 + 0.5) / 4, within(1e-12));
    }

    @Test
    void equalConfidencesAreAnsweredOrDeclinedTogether() {
        RiskCoverage curve =
                RiskCoverage.of(new double[] {0.5, 0.5, 0.5, 0.9}, new boolean[] {true, false, true, true});
        assertThat(curve.points())
                .containsExactly(new RiskCoverage.Point(0.9, 0.25, 0), new RiskCoverage.Point(0.5, 1, 0.25));
    }

    @Test
    void theSafestPointAnswersAsMuchAsTheRiskAllows() {
        RiskCoverage curve =
                RiskCoverage.of(new double[] {0.9, 0.8, 0.7, 0.6}, new boolean[] {true, false, true, true});
        // risks 0, 1/2, 1/3, 1/4: not falling, so the widest coverage counts
        assertThat(curve.safest(0.25)).contains(new RiskCoverage.Point(0.6, 1, 0.25));
        assertThat(curve.safest(0.1)).contains(new RiskCoverage.Point(0.9, 0.25, 0));
        assertThat(RiskCoverage.of(new double[] {1}, new boolean[] {false}).safest(0.5))
                .isEmpty();
    }

    @Test
    void withoutItemsThereIsNoCurve() {
        RiskCoverage curve = RiskCoverage.of(new double[0], new boolean[0]);
        assertThat(curve.points()).isEmpty();
        assertThat(curve.area()).isNaN();
    }
}
