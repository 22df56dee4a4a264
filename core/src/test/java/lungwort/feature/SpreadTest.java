package lungwort.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import lungwort.signal.Statistics;
import org.junit.jupiter.api.Test;

class SpreadTest {
    private static final double[] X = {9, 3, 1, 4, 1, 5, 9, 2, 6, 9};

    @Test
    void agreesWithTheStatisticsThatAreHeldToSciPy() {
        double[] slice = {3, 1, 4, 1, 5, 9, 2, 6};
        Spread s = new Spread(X, 1, 9);
        assertThat(s.mean()).isCloseTo(Statistics.mean(slice), within(1e-12));
        assertThat(s.deviation()).isCloseTo(Statistics.standardDeviation(slice), within(1e-12));
        assertThat(s.kurtosis()).isCloseTo(Statistics.kurtosis(slice) + 3, within(1e-12));
        assertThat(s.percentile(37)).isCloseTo(Statistics.percentile(slice, 37), within(1e-12));
        assertThat(s.max()).isEqualTo(9);
    }

    @Test
    void countsWhatLiesAboveALimit() {
        Spread s = new Spread(X, 0, X.length);
        assertThat(s.shareAbove(5)).isEqualTo(0.4);
        assertThat(s.shareAbove(9)).isZero();
        assertThat(s.shareAbove(0)).isEqualTo(1);
    }
}
