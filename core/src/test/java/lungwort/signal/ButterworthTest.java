package lungwort.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.Stream;
import lungwort.golden.Golden;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against SciPy's butter, sosfreqz, sosfilt and sosfiltfilt (tests/golden/make_golden.py), and the filter's own definition. */
class ButterworthTest {
    private static final double TOLERANCE = 1e-9;

    static Stream<Golden> cases() {
        return Golden.cases("butterworth");
    }

    private static SosFilter design(Golden golden) {
        double[] edges = golden.array("edgesHz");
        int order = golden.whole("order");
        int rate = golden.whole("rateHz");
        return switch (golden.text("kind")) {
            case "lowpass" -> Butterworth.lowPass(order, edges[0], rate);
            case "highpass" -> Butterworth.highPass(order, edges[0], rate);
            default -> Butterworth.bandPass(order, edges[0], edges[1], rate);
        };
    }

    @ParameterizedTest
    @MethodSource("cases")
    void hasThePolesOfSciPysFilter(Golden golden) {
        double[][] ours = denominators(design(golden).sections());
        double[][] scipys = denominators(golden.rows("sos"));
        assertThat(ours).hasDimensions(scipys.length, 2);
        for (int i = 0; i < ours.length; i++) {
            assertThat(ours[i]).containsExactly(scipys[i], within(TOLERANCE));
        }
    }

    private static double[][] denominators(double[][] sections) {
        return Arrays.stream(sections)
                .map(s -> new double[] {s[4], s[5]})
                .sorted(Comparator.<double[]>comparingDouble(a -> Math.rint(a[0] * 1e6))
                        .thenComparingDouble(a -> a[1]))
                .toArray(double[][]::new);
    }

    @ParameterizedTest
    @MethodSource("cases")
    void hasTheGainOfSciPysFilter(Golden golden) {
        SosFilter filter = design(golden);
        double[] hz = golden.array("hz");
        double[] gain = golden.array("gain");
        for (int i = 0; i < hz.length; i++) {
            assertThat(filter.gainAt(hz[i])).as("gain at %s Hz", hz[i]).isCloseTo(gain[i], within(TOLERANCE));
        }
    }

    @ParameterizedTest
    @MethodSource("cases")
    void filtersAsSciPysSosfilt(Golden golden) {
        assertThat(design(golden).filter(golden.array("x")))
                .containsExactly(golden.array("sosfilt"), within(TOLERANCE));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void filtersWithoutDelayAsSciPysSosfiltfilt(Golden golden) {
        assertThat(design(golden).filtFilt(golden.array("x")))
                .containsExactly(golden.array("sosfiltfilt"), within(1e-7));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 7, 12})
    void edgesAreTheHalfPowerPoints(int order) {
        double halfPower = Math.sqrt(0.5);
        assertThat(Butterworth.lowPass(order, 500, 4000).gainAt(500)).isCloseTo(halfPower, within(1e-9));
        assertThat(Butterworth.highPass(order, 60, 4000).gainAt(60)).isCloseTo(halfPower, within(1e-9));
        SosFilter band = Butterworth.bandPass(order, 60, 1900, 4000);
        assertThat(band.gainAt(60)).isCloseTo(halfPower, within(1e-9));
        assertThat(band.gainAt(1900)).isCloseTo(halfPower, within(1e-9));
    }

    @Test
    void filtFiltLeavesAConstantThatPassesUntouchedToTheLastSample() {
        double[] x = new double[50];
        Arrays.fill(x, 0.25);
        assertThat(Butterworth.lowPass(4, 500, 4000).filtFilt(x)).containsExactly(x, within(1e-12));
    }

    @Test
    void filtFiltTakesSignalsShorterThanItsPadding() {
        SosFilter filter = Butterworth.bandPass(4, 60, 1900, 4000);
        assertThat(filter.filtFilt(new double[0])).isEmpty();
        for (int n = 1; n < 30; n++) {
            double[] x = new double[n];
            Arrays.fill(x, 1);
            assertThat(filter.filtFilt(x)).hasSize(n).containsExactly(new double[n], within(1e-9));
        }
    }

    @Test
    void doesNotTouchItsInput() {
        double[] x = {1, 2, 3, 4, 5};
        SosFilter filter = Butterworth.lowPass(2, 500, 4000);
        filter.filter(x);
        filter.filtFilt(x);
        assertThat(x).containsExactly(1, 2, 3, 4, 5);
    }

    @ParameterizedTest
    @CsvSource({"0,100,200", "17,100,200", "4,0,200", "4,100,2000", "4,200,100", "4,200,200", "4,NaN,100"})
    void refusesOrdersAndEdgesOutOfRange(int order, double low, double high) {
        assertThatThrownBy(() -> Butterworth.bandPass(order, low, high, 4000))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
