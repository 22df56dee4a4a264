package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RankNormalTest {
    private static float[][] column(float... values) {
        float[][] x = new float[values.length][1];
        for (int i = 0; i < values.length; i++) {
            x[i][0] = values[i];
        }
        return x;
    }

    private static float[][] ramp(int n) {
        float[] values = new float[n];
        for (int i = 0; i < n; i++) {
            values[i] = i * i;
        }
        return column(values);
    }

    /** Normal quantiles: 0 at the median, 1 at rank 0.8413, -1 at 0.1587, whatever the feature's own scale. */
    @Test
    void ranksBecomeNormalScores() {
        RankNormal scale = RankNormal.of(ramp(10_001));
        assertThat(scale.apply(new float[] {5000f * 5000f})[0]).isCloseTo(0, within(0.01f));
        assertThat(scale.apply(new float[] {8413f * 8413f})[0]).isCloseTo(1, within(0.02f));
        assertThat(scale.apply(new float[] {1587f * 1587f})[0]).isCloseTo(-1, within(0.02f));
    }

    @Test
    void valuesFarOutAreHeldAtTheEnds() {
        RankNormal scale = RankNormal.of(ramp(1000));
        float top = scale.apply(new float[] {Float.MAX_VALUE})[0];
        assertThat(top).isCloseTo(2.576f, within(0.01f));
        assertThat(scale.apply(new float[] {-Float.MAX_VALUE})[0]).isEqualTo(-top);
    }

    @Test
    void aConstantFeatureSaysNothing() {
        assertThat(RankNormal.of(column(3, 3, 3, 3)).apply(new float[] {3})[0]).isZero();
    }

    @Test
    void aValueThatManyShareGetsTheMiddleOfTheirRanks() {
        float[] values = new float[1000];
        for (int i = 500; i < 1000; i++) {
            values[i] = i;
        }
        // Half the rows are 0: their middle rank is 0.25, whose normal score is -0.674; ends are held a little further
        // in.
        assertThat(RankNormal.of(column(values)).apply(new float[] {0})[0]).isBetween(-1.4f, -0.6f);
    }

    @Test
    void isMonotone() {
        RankNormal scale = RankNormal.of(ramp(300));
        float last = Float.NEGATIVE_INFINITY;
        for (int i = -10; i < 90_100; i += 37) {
            float z = scale.apply(new float[] {i})[0];
            assertThat(z).isGreaterThanOrEqualTo(last);
            last = z;
        }
    }
}
