package lungwort.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.Stream;
import lungwort.golden.Golden;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Fourier transform, analytic signal, spectrogram, mel bands and cepstrum against SciPy and NumPy (tests/golden/make_golden.py). */
class SpectrumTest {
    private static final double TOLERANCE = 1e-9;

    static Stream<Golden> transforms() {
        return Golden.cases("transforms");
    }

    static Stream<Golden> spectrograms() {
        return Golden.cases("spectrogram");
    }

    static Stream<Golden> melBands() {
        return Golden.cases("mel");
    }

    @ParameterizedTest
    @MethodSource("transforms")
    void powerIsNumPysRfftSquared(Golden golden) {
        assertThat(Fft.power(golden.array("x"))).containsExactly(golden.array("rfftPower"), within(TOLERANCE));
    }

    @ParameterizedTest
    @MethodSource("transforms")
    void analyticSignalIsSciPysHilbert(Golden golden) {
        double[] x = golden.array("x");
        double[] z = Fft.analytic(x);
        double[] imaginary = golden.array("hilbertImag");
        for (int i = 0; i < x.length; i++) {
            assertThat(z[2 * i]).isCloseTo(x[i], within(TOLERANCE));
            assertThat(z[2 * i + 1]).isCloseTo(imaginary[i], within(TOLERANCE));
        }
        assertThat(Envelope.hilbert(x)).containsExactly(golden.array("envelope"), within(TOLERANCE));
    }

    @ParameterizedTest
    @MethodSource("transforms")
    void cepstrumIsSciPysOrthonormalDct(Golden golden) {
        double[] x = golden.array("x");
        double[] all = golden.array("dct");
        int count = Math.max(1, x.length / 2);
        double[] some = new double[count];
        new Cepstrum(x.length, count).apply(x, some);
        assertThat(some).containsExactly(Arrays.copyOf(all, count), within(TOLERANCE));
    }

    @ParameterizedTest
    @MethodSource("spectrograms")
    void spectrogramIsSciPysPowerSpectralDensity(Golden golden) {
        Spectrogram ours = Spectrogram.of(
                golden.array("x"),
                golden.whole("rateHz"),
                golden.whole("frame"),
                golden.whole("hop"),
                golden.whole("fft"));
        double[][] power = golden.rows("power");
        double[] seconds = golden.array("seconds");
        double[] hz = golden.array("hz");
        assertThat(ours.frames()).isEqualTo(power.length);
        assertThat(ours.bins()).isEqualTo(hz.length);
        for (int f = 0; f < power.length; f++) {
            assertThat(ours.secondsOf(f)).isCloseTo(seconds[f], within(1e-12));
            assertThat(ours.frameOf(seconds[f])).isEqualTo(f);
            assertThat(ours.row(f)).containsExactly(power[f], within(1e-12));
        }
        for (int k = 0; k < hz.length; k++) {
            assertThat(ours.hzOf(k)).isCloseTo(hz[k], within(1e-9));
            assertThat(ours.binOf(hz[k])).isEqualTo(k);
        }
    }

    @ParameterizedTest
    @MethodSource("melBands")
    void melBandsFollowHtksFormula(Golden golden) {
        MelBands bands = MelBands.of(
                golden.whole("bands"),
                golden.number("lowHz"),
                golden.number("highHz"),
                golden.whole("bins"),
                golden.number("binHz"));
        double[] energies = new double[bands.bands()];
        bands.apply(golden.array("power"), energies);
        assertThat(energies).containsExactly(golden.array("energies"), within(TOLERANCE));
        double[] centres = golden.array("centresHz");
        for (int b = 0; b < centres.length; b++) {
            assertThat(bands.centreHz(b)).isCloseTo(centres[b], within(1e-6));
        }
    }

    @Test
    void powerOfASineIsHalfItsAmplitudeSquared() {
        int rate = 8000;
        double[] x = new double[rate];
        Arrays.setAll(x, i -> 0.4 * Math.sin(2 * Math.PI * 500 * i / rate));
        Spectrogram s = Spectrogram.of(x, rate, 512, 256, 512);
        for (int f = 0; f < s.frames(); f++) {
            assertThat(s.bandPower(f, 0, 4000)).isCloseTo(0.4 * 0.4 / 2, within(1e-9));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 17, 64, 100, 1 << 14, 40_000, 65_537})
    void inverseUndoesForward(int size) {
        Random random = new Random(size);
        double[] z = random.doubles(2L * size).toArray();
        double[] copy = z.clone();
        Fft fft = Fft.of(size);
        fft.forward(copy);
        fft.inverse(copy);
        double worst = 0;
        for (int i = 0; i < z.length; i++) {
            worst = Math.max(worst, Math.abs(copy[i] - z[i]));
        }
        assertThat(worst).isLessThan(1e-9);
    }

    @Test
    void aRecordingShorterThanAFrameHasNoFrame() {
        Spectrogram s = Spectrogram.of(new double[63], 4000, 64, 16, 64);
        assertThat(s.frames()).isZero();
        assertThat(s.frameOf(0.01)).isEqualTo(-1);
        assertThat(Spectrogram.of(new double[64], 4000, 64, 16, 64).frames()).isEqualTo(1);
    }

    @Test
    void melBandsThatWouldHoldNoBinAreRefused() {
        assertThatThrownBy(() -> MelBands.of(80, 60, 1900, 65, 31.25))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("fewer bands or a longer FFT");
        assertThatThrownBy(() -> MelBands.of(10, 60, 2100, 65, 31.25)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void hannWindowsAreThePublishedOnes() {
        assertThat(Window.hannPeriodic(4)).containsExactly(new double[] {0, 0.5, 1, 0.5}, within(1e-15));
        assertThat(Window.hannSymmetric(5)).containsExactly(new double[] {0, 0.5, 1, 0.5, 0}, within(1e-15));
        assertThat(Window.hannSymmetric(1)).containsExactly(1);
    }
}
