package lungwort.audio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.stream.Stream;
import lungwort.golden.Golden;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Against SciPy's resample_poly (tests/golden/make_golden.py) and against tones written down at the new rate. */
class ResamplerTest {
    static Stream<Golden> cases() {
        return Golden.cases("resample");
    }

    @ParameterizedTest
    @MethodSource("cases")
    void agreesWithSciPysResamplePolyInsideTheLowerRatesBand(Golden golden) {
        double[] y = golden.array("y");
        Recording ours = Resampler.toRate(
                new Recording(golden.array("x"), golden.whole("rateHz"), "golden"), golden.whole("toHz"));
        assertThat(ours.sampleRateHz()).isEqualTo(golden.whole("toHz"));
        assertThat(ours.length()).isEqualTo(y.length);
        double[] difference = new double[y.length];
        Arrays.setAll(difference, i -> ours.sample(i) - y[i]);
        // Two different filters, each flat to about 0.01 dB below 0.39 of the lower rate.
        assertThat(rms(difference) / rms(y)).isLessThan(1e-3);
    }

    @ParameterizedTest
    @CsvSource({
        "44100,4000",
        "44100,8000",
        "10000,8000",
        "4000,8000",
        "8000,4000",
        "48000,4000",
        "11025,4000",
        "96000,8000"
    })
    void toneKeepsAmplitudeAndPlaceBelow039OfTheLowerRate(int fromHz, int toHz) {
        for (double fraction : new double[] {0.01, 0.1, 0.2, 0.3, 0.39}) {
            double hz = fraction * Math.min(fromHz, toHz);
            Recording y = Resampler.toRate(tone(hz, fromHz, 1), toHz);
            Recording expected = tone(hz, toHz, 1);
            double error = 0;
            int from = toHz / 10;
            for (int i = from; i < toHz - from; i++) {
                error += Math.pow(y.sample(i) - expected.sample(i), 2);
            }
            double errorDb = 10 * Math.log10(error / (toHz - 2 * from) / 0.5);
            assertThat(errorDb).as("%.0f Hz", hz).isLessThan(-64);
        }
    }

    @ParameterizedTest
    @CsvSource({"44100,4000", "8000,4000", "10000,8000", "48000,8000"})
    void whatLiesAboveTheNewBandIsGoneNotFoldedBack(int fromHz, int toHz) {
        for (double fraction : new double[] {0.51, 0.55, 0.6}) {
            Recording y = Resampler.toRate(tone(fraction * toHz, fromHz, 1), toHz);
            double[] middle = y.slice(0.1, 0.9).samples();
            assertThat(20 * Math.log10(rms(middle) / Math.sqrt(0.5)))
                    .as("%s of the new rate", fraction)
                    .isLessThan(-60);
        }
    }

    @Test
    void aClickStaysAtItsTime() {
        double[] x = new double[44_100];
        x[22_050] = 1;
        Recording y = Resampler.toRate(new Recording(x, 44_100, "click"), 8_000);
        int loudest = 0;
        for (int i = 0; i < y.length(); i++) {
            loudest = Math.abs(y.sample(i)) > Math.abs(y.sample(loudest)) ? i : loudest;
        }
        assertThat(loudest).isEqualTo(4_000);
        // Symmetric to a thousandth of its height: the interpolated filter is off by less than a thousandth of a
        // sample.
        assertThat(y.sample(3_999)).isCloseTo(y.sample(4_001), within(1e-3 * y.sample(4_000)));
    }

    @ParameterizedTest
    @CsvSource({"44100,4000", "4000,8000", "10000,8000", "8000,7999", "384000,1000", "1000,384000"})
    void lengthIsTheDurationRoundedUpAndNothingAtTheEndIsLost(int fromHz, int toHz) {
        for (int n : new int[] {0, 1, 2, 3, 17, 1000, 4097}) {
            double[] x = new double[n];
            Arrays.fill(x, 1);
            Recording y = Resampler.toRate(new Recording(x, fromHz, "ones"), toHz);
            assertThat(y.length()).isEqualTo((int) Math.ceil((double) n * toHz / fromHz - 1e-9));
            if (y.length() > 0 && n > 1) {
                // The step into the silence beyond the end is halved by the filter, not cut off.
                assertThat(y.sample(y.length() - 1)).isNotZero();
            }
        }
    }

    @Test
    void sameRateIsTheSameRecording() {
        Recording x = tone(100, 8000, 1);
        assertThat(Resampler.toRate(x, 8000)).isSameAs(x);
    }

    private static Recording tone(double hz, int rateHz, double seconds) {
        double[] x = new double[(int) (seconds * rateHz)];
        Arrays.setAll(x, i -> Math.sin(2 * Math.PI * hz * i / rateHz));
        return new Recording(x, rateHz, hz + " Hz");
    }

    private static double rms(double[] x) {
        return Math.sqrt(Arrays.stream(x).map(v -> v * v).average().orElse(0));
    }
}
