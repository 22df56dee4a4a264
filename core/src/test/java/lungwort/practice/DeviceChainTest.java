package lungwort.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import lungwort.signal.Butterworth;
import lungwort.signal.Fft;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The synthesised device against closed forms: the cookbook's own gains at the named frequencies, and the Butterworth filter of {@code signal}. */
class DeviceChainTest {
    private static final int RATE_HZ = 8_000;
    private static final int LENGTH = 1 << 14;

    private static double[] click() {
        double[] click = new double[LENGTH];
        click[0] = 1;
        return click;
    }

    /** Gain in dB at a frequency, from the response to a click. */
    private static double gainDb(Biquad filter, double hz) {
        double[] power = Fft.power(filter.apply(click()));
        return 10 * Math.log10(power[(int) Math.round(hz * LENGTH / RATE_HZ)] + 1e-30);
    }

    /** Audio EQ Cookbook: at its own frequency a low or high pass has the gain q; far inside the band it has 1. */
    @ParameterizedTest
    @CsvSource({"500, 0.7071", "1000, 2", "2000, 0.5"})
    void lowAndHighPassHaveTheGainQAtTheirFrequency(double hz, double q) {
        assertThat(gainDb(Biquad.lowPass(hz, q, RATE_HZ), hz)).isCloseTo(20 * Math.log10(q), within(0.01));
        assertThat(gainDb(Biquad.highPass(hz, q, RATE_HZ), hz)).isCloseTo(20 * Math.log10(q), within(0.01));
        assertThat(gainDb(Biquad.lowPass(hz, q, RATE_HZ), 0)).isCloseTo(0, within(1e-6));
        assertThat(gainDb(Biquad.highPass(hz, q, RATE_HZ), RATE_HZ / 2.0)).isCloseTo(0, within(1e-6));
        assertThat(gainDb(Biquad.highPass(hz, q, RATE_HZ), 0)).isLessThan(-100);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-12, -3, 6, 18})
    void aPeakHasItsHeightAtItsMiddleAndNothingAtBothEnds(double db) {
        Biquad peak = Biquad.peak(1000, db, 2, RATE_HZ);
        assertThat(gainDb(peak, 1000)).isCloseTo(db, within(0.01));
        assertThat(gainDb(peak, 0)).isCloseTo(0, within(1e-6));
        assertThat(gainDb(peak, RATE_HZ / 2.0)).isCloseTo(0, within(1e-6));
    }

    @Test
    void aSlopeIsAtHalfPowerAtItsCornerAndABandPassWholeAtItsMiddle() {
        assertThat(gainDb(Biquad.slope(500, RATE_HZ), 500)).isCloseTo(-3.0103, within(0.01));
        assertThat(gainDb(Biquad.slope(500, RATE_HZ), 0)).isCloseTo(0, within(1e-6));
        assertThat(gainDb(Biquad.bandPass(500, 3, RATE_HZ), 500)).isCloseTo(0, within(0.01));
    }

    @ParameterizedTest
    @ValueSource(doubles = {300, 1000, 3000})
    void theDevicesUpperEdgeIsAButterworthFilterOfOrderTwelve(double hz) {
        double[] device = DeviceChain.apply(click(), Device.FLAT.band(0, hz), RATE_HZ);
        double[] butterworth = Butterworth.lowPass(12, hz, RATE_HZ).filter(click());
        for (int i = 0; i < 2_000; i++) {
            assertThat(device[i]).as("sample %d", i).isCloseTo(butterworth[i], within(1e-9));
        }
    }

    @Test
    void gainIsInDecibelsAndFullScaleIsTheEnd() {
        double[] x = {0.1, -0.1, 0.6, -0.6};
        assertThat(DeviceChain.apply(x, Device.FLAT.gain(6.0206), RATE_HZ)[0]).isCloseTo(0.2, within(1e-5));
        assertThat(x[2]).isEqualTo(1);
        assertThat(DeviceChain.apply(new double[] {0.6, -0.9}, Device.FLAT.clippingAt(0.5), RATE_HZ))
                .containsExactly(0.5, -0.5);
    }

    /** Automatic gain takes away what tells loud from soft; it rises slower than it falls, so it ends a little below its aim. */
    @Test
    void automaticGainBringsLoudAndSoftToOneLevel() {
        double loud = levelAfterAutomaticGain(0.9);
        assertThat(levelAfterAutomaticGain(0.02)).isCloseTo(loud, within(0.05));
        assertThat(levelAfterAutomaticGain(0.1)).isCloseTo(loud, within(0.05));
        assertThat(loud).isBetween(-26.0, -20.0);
    }

    /** Level of the second half of six seconds of noise, in dB re full scale. */
    private static double levelAfterAutomaticGain(double amplitude) {
        double[] x = new Random(1).doubles(6L * RATE_HZ, -amplitude, amplitude).toArray();
        double[] y = DeviceChain.apply(x, Device.FLAT.withAutomaticGain(), RATE_HZ);
        return 20 * Math.log10(Levels.rms(Arrays.copyOfRange(y, y.length / 2, y.length)));
    }

    @Test
    void theGatePressesWhatLiesBelowItByThirtyDecibelsAndLeavesWhatLiesAbove() {
        Random random = new Random(2);
        double[] soft = random.doubles(2 * RATE_HZ, -0.001, 0.001).toArray();
        double[] loud = random.doubles(2 * RATE_HZ, -0.5, 0.5).toArray();
        Device gate = Device.FLAT.gatedBelow(-40);
        double before = Levels.rms(soft);
        double loudBefore = Levels.rms(Arrays.copyOfRange(loud, RATE_HZ, loud.length));

        DeviceChain.apply(soft, gate, RATE_HZ);
        DeviceChain.apply(loud, gate, RATE_HZ);

        assertThat(20 * Math.log10(Levels.rms(soft) / before)).isCloseTo(-30, within(0.1));
        assertThat(20 * Math.log10(Levels.rms(Arrays.copyOfRange(loud, RATE_HZ, loud.length)) / loudBefore))
                .isCloseTo(0, within(0.05));
    }
}
