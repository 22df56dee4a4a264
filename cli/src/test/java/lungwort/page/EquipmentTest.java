package lungwort.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.signal.Butterworth;
import lungwort.signal.SosFilter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EquipmentTest {
    private static final int RATE_HZ = 48_000;

    private static double[] noise(double levelDb, long seed) {
        Random random = new Random(seed);
        double sigma = Math.pow(10, levelDb / 20);
        double[] x = new double[4 * RATE_HZ];
        for (int i = 0; i < x.length; i++) {
            x[i] = sigma * random.nextGaussian();
        }
        return x;
    }

    private static Recording recording(double[] x) {
        return new Recording(x, RATE_HZ, "test");
    }

    @Test
    void aTapStandsOutOfTheQuiet() {
        double[] x = noise(-70, 1);
        for (int tap = 1; tap <= 3; tap++) {
            for (int i = 0; i < 200; i++) {
                x[tap * RATE_HZ + i] += 0.5 * Math.exp(-i / 50.0);
            }
        }

        assertThat(Equipment.tap(recording(x)).id()).isEqualTo("tap-heard");
        assertThat(Equipment.tap(recording(noise(-70, 2))).id()).isEqualTo("tap-not-heard");
        assertThat(Equipment.tap(recording(new double[RATE_HZ])).id()).isEqualTo("tap-not-heard");
    }

    /** The level of noise of a standard deviation s is 20 log10 s: on both sides of the limit of -45 dB. */
    @ParameterizedTest
    @CsvSource({"-46, silence-quiet", "-44, silence-loud"})
    void silenceIsJudgedOnBothSidesOfItsLimit(double levelDb, String id) {
        Equipment.Check check = Equipment.silence(recording(noise(levelDb, 3)));

        assertThat(check.id()).isEqualTo(id);
        assertThat(check.value()).isCloseTo(levelDb, within(0.5));
    }

    /** Cheap microphones have a constant offset, here 34 dB below full scale; nobody hears it. */
    @Test
    void aConstantOffsetIsNoNoise() {
        double[] x = noise(-60, 3);
        for (int i = 0; i < x.length; i++) {
            x[i] += 0.02;
        }

        Equipment.Check check = Equipment.silence(recording(x));

        assertThat(check.id()).isEqualTo("silence-quiet");
        assertThat(check.value()).isCloseTo(-60, within(0.5));
    }

    @Test
    void zerosAreADeadChainAndNotAQuietOne() {
        assertThat(Equipment.silence(recording(new double[RATE_HZ])).id()).isEqualTo("silence-dead");
        double[] offset = new double[RATE_HZ];
        java.util.Arrays.fill(offset, 0.02);
        assertThat(Equipment.silence(recording(offset)).id()).isEqualTo("silence-dead");
    }

    /** White noise through a Butterworth low-pass of eighth order, whose level falls by 48 dB an octave above its corner. */
    @ParameterizedTest
    @CsvSource({"500, bandwidth-very-narrow", "1000, bandwidth-narrow", "4000, bandwidth-wide"})
    void bandwidthIsWhereTheRubbingSinksIntoTheQuiet(double cornerHz, String id) {
        SosFilter lowPass = Butterworth.lowPass(8, cornerHz, RATE_HZ);
        double[] rubbing = lowPass.filter(noise(-30, 4));
        double[] hiss = noise(-62, 5);
        for (int i = 0; i < rubbing.length; i++) {
            rubbing[i] += hiss[i];
        }

        Equipment.Check check = Equipment.bandwidth(recording(rubbing), recording(noise(-62, 6)));

        assertThat(check.id()).isEqualTo(id);
        assertThat(check.value()).isBetween(0.95 * cornerHz, 1.7 * cornerHz);
    }

    @Test
    void rubbingThatIsNotHeardSaysSo() {
        assertThat(Equipment.bandwidth(recording(noise(-60, 7)), recording(noise(-60, 8)))
                        .id())
                .isEqualTo("bandwidth-nothing");
    }

    @Test
    void twoMicrophonesCannotBeCompared() {
        Recording other = new Recording(new double[16_000], 16_000, "test");

        assertThatThrownBy(() -> Equipment.bandwidth(recording(noise(-40, 9)), other))
                .isInstanceOf(BadInput.class);
    }
}
