package lungwort.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Held to the definition, window by window, on random numbers with ties. */
class SlidingTest {
    private static double[] numbers(int n) {
        SplittableRandom random = new SplittableRandom(61);
        return random.doubles(n, 0, 20).map(Math::floor).toArray();
    }

    /** The window around each value, the end values going on beyond the ends. */
    private static double[][] windows(double[] x, int width) {
        int half = width / 2;
        double[][] windows = new double[x.length][2 * half + 1];
        for (int i = 0; i < x.length; i++) {
            for (int k = -half; k <= half; k++) {
                windows[i][k + half] = x[Math.max(0, Math.min(x.length - 1, i + k))];
            }
            Arrays.sort(windows[i]);
        }
        return windows;
    }

    /** Zeros of both signs are equal to == and not to the order that the window is kept in. */
    @Test
    void zerosOfBothSignsGoInAndOut() {
        SplittableRandom random = new SplittableRandom(62);
        double[] x =
                random.ints(400, -1, 3).mapToDouble(i -> i < 0 ? -0.0 : i / 2).toArray();
        double[][] windows = windows(x, 5);
        double[] median = Sliding.median(x, 5);
        for (int i = 0; i < x.length; i++) {
            assertThat(median[i]).isEqualTo(windows[i][2]);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 3, 4, 7, 31, 99})
    void agreesWithTheDefinition(int width) {
        double[] x = numbers(60);
        double[][] windows = windows(x, width);
        double[] minimum = Sliding.minimum(x, width);
        double[] maximum = Sliding.maximum(x, width);
        double[] mean = Sliding.mean(x, width);
        double[] median = Sliding.median(x, width);
        for (int i = 0; i < x.length; i++) {
            double[] w = windows[i];
            assertThat(minimum[i]).isEqualTo(w[0]);
            assertThat(maximum[i]).isEqualTo(w[w.length - 1]);
            assertThat(median[i]).isEqualTo(w[w.length / 2]);
            assertThat(mean[i]).isCloseTo(Arrays.stream(w).average().orElseThrow(), within(1e-9));
        }
    }
}
