package lungwort.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.offset;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.Stream;
import lungwort.golden.Golden;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Statistics, envelopes and autocorrelation against SciPy and NumPy (tests/golden/make_golden.py). */
class StatisticsTest {
    static Stream<Golden> statistics() {
        return Golden.cases("statistics");
    }

    static Stream<Golden> autocorrelations() {
        return Golden.cases("autocorrelation");
    }

    private static Offset<Double> relative(double value) {
        return within(1e-12 * Math.max(1, Math.abs(value)));
    }

    @ParameterizedTest
    @MethodSource("statistics")
    void agreesWithSciPy(Golden golden) {
        double[] x = golden.array("x");
        double[] before = x.clone();
        assertNear(Statistics.mean(x), golden.number("mean"));
        assertNear(Statistics.standardDeviation(x), golden.number("standardDeviation"));
        assertNear(Statistics.median(x), golden.number("median"));
        assertNear(Statistics.medianAbsoluteDeviation(x), golden.number("mad"));
        assertNear(Statistics.skewness(x), golden.number("skewness"));
        assertNear(Statistics.kurtosis(x), golden.number("kurtosis"));
        double[] expected = golden.array("percentiles");
        double[] ours = Statistics.percentiles(x, golden.array("percents"));
        for (int i = 0; i < expected.length; i++) {
            assertNear(ours[i], expected[i]);
        }
        assertThat(x).containsExactly(before);
    }

    private static void assertNear(double ours, double expected) {
        assertThat(ours).isCloseTo(expected, relative(expected));
    }

    @Test
    void medianOfRandomArraysIsTheMiddleOfTheSortedOne() {
        Random random = new Random(20261125);
        for (int round = 0; round < 500; round++) {
            int n = 1 + random.nextInt(60);
            // Few distinct values: ties are what breaks a selection.
            double[] x = random.ints(n, 0, 8).asDoubleStream().toArray();
            double[] sorted = x.clone();
            Arrays.sort(sorted);
            double middle = (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
            assertThat(Statistics.median(x)).as(Arrays.toString(x)).isEqualTo(middle);
        }
    }

    @Test
    void nothingHasNoStatistics() {
        double[] none = {};
        assertThat(Statistics.mean(none)).isNaN();
        assertThat(Statistics.median(none)).isNaN();
        assertThat(Statistics.medianAbsoluteDeviation(none)).isNaN();
        assertThat(Statistics.percentile(none, 50)).isNaN();
        assertThatThrownBy(() -> Statistics.percentile(new double[] {1}, 101))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void scaledDeviationOfNormalNoiseIsItsStandardDeviation() {
        Random random = new Random(7);
        double[] x = random.doubles(100_000).map(u -> 3 * random.nextGaussian()).toArray();
        // Standard error of the estimate at this n: about 1.17 sigma / sqrt(n) = 0.011.
        assertThat(Statistics.MAD_TO_SIGMA * Statistics.medianAbsoluteDeviation(x))
                .isCloseTo(3, offset(0.05));
    }

    @ParameterizedTest
    @MethodSource("autocorrelations")
    void autocorrelationIsNumPysCorrelate(Golden golden) {
        assertThat(Autocorrelation.normalised(golden.array("x"), golden.whole("maxLag")))
                .containsExactly(golden.array("normalised"), within(1e-12));
    }

    @Test
    void autocorrelationPeaksAtThePeriod() {
        double[] x = new double[2000];
        Arrays.setAll(x, i -> Math.sin(2 * Math.PI * i / 40.5));
        double[] r = Autocorrelation.unbiased(x, 100);
        assertThat(Autocorrelation.peakLag(r, 20, 60)).isCloseTo(40.5, within(0.05));
        assertThat(Autocorrelation.peakLag(r, 25, 35)).isNaN();
    }

    @Test
    void aConstantHasNoAutocorrelation() {
        double[] x = new double[10];
        Arrays.fill(x, 0.1);
        assertThat(Autocorrelation.normalised(x, 3)).containsExactly(0, 0, 0, 0);
    }

    @Test
    void envelopeOfASineIsItsAmplitude() {
        double[] x = new double[800];
        Arrays.setAll(x, i -> 0.3 * Math.sin(2 * Math.PI * i / 20));
        assertThat(Envelope.hilbert(x)[400]).isCloseTo(0.3, within(1e-9));
        // A window of 21 samples holds one period and one sample more.
        assertThat(Envelope.rms(x, 20)[400]).isCloseTo(0.3 / Math.sqrt(2), within(0.01));
        assertThat(Envelope.hilbert(new double[0])).isEmpty();
    }

    @Test
    void smoothingKeepsAConstantToTheEnds() {
        double[] x = new double[30];
        Arrays.fill(x, 2);
        assertThat(Envelope.smoothed(x, 7)).containsExactly(x, within(1e-12));
        assertThat(Envelope.smoothed(new double[] {0, 3, 0, 0}, 3))
                .containsExactly(new double[] {1.5, 1, 1, 0}, within(1e-12));
    }
}
