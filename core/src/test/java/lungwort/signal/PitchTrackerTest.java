package lungwort.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PitchTrackerTest {
    private static final int RATE_HZ = 8000;

    @ParameterizedTest
    @ValueSource(doubles = {90, 150, 400, 700})
    void findsTheFundamentalUnderItsOvertones(double hz) {
        double[] x = new double[RATE_HZ];
        for (int i = 0; i < x.length; i++) {
            double turn = 2 * Math.PI * hz * i / RATE_HZ;
            x[i] = 0.01 * (0.5 * Math.sin(turn) + Math.sin(2 * turn) + 0.4 * Math.sin(3 * turn));
        }
        assertThat(PitchTracker.medianHz(x, 0, x.length, 512, RATE_HZ)).isCloseTo(hz, within(0.01 * hz));
    }

    @ParameterizedTest
    @ValueSource(ints = {511, 512, 513})
    void stretchesMayBeOfOddLength(int length) {
        double[] x = new double[8 * RATE_HZ];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.sin(2 * Math.PI * 150 * i / RATE_HZ);
        }
        assertThat(PitchTracker.medianHz(x, 0, x.length, length, RATE_HZ)).isCloseTo(150, within(1.5));
        assertThat(PitchTracker.medianHz(x, 0, 10, length, RATE_HZ)).isNaN();
    }

    @Test
    void noiseAndSilenceHaveNone() {
        Random random = new Random(5);
        double[] noise = random.doubles(RATE_HZ, -1, 1).toArray();
        assertThat(PitchTracker.medianHz(noise, 0, noise.length, 256, RATE_HZ)).isNaN();
        assertThat(PitchTracker.fundamentalHz(new double[256], 0, 256, RATE_HZ)).isNaN();
    }
}
