package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class UnfamiliarScaleTest {
    /** In log odds, of what can be judged. */
    @Test
    void windowsHaveHalfOfTheSay() {
        double[] whole = {0.3, 0.2, 0.1, 0.1, 0.3};
        List<WindowAnswer> windows = List.of(window(0.5), window(0.9));
        double judged = (whole[1] + whole[3]) / 0.7;
        double own = Math.log(judged / (1 - judged));
        double mean = Math.log(9) / 2;
        double expected = 1 / (1 + Math.exp(-(own + mean) / 2));
        assertThat(UnfamiliarScale.continuous(whole, windows)).isCloseTo(expected, within(1e-9));
        UnfamiliarScale plain = new UnfamiliarScale(PlattScale.NONE, new PlattScale(1, 2));
        SoundModel.Calibrated told = plain.apply(whole, windows, 0.123);
        assertThat(told.continuous()).isCloseTo(expected, within(1e-9));
        assertThat(told.poorQuality()).isEqualTo(0.123);
        double discontinuous = UnfamiliarScale.discontinuous(whole, windows);
        assertThat(told.discontinuous())
                .isCloseTo(1 / (1 + (1 - discontinuous) / discontinuous * Math.exp(-2)), within(1e-9));
    }

    /** A fitted logistic scale states as many cases as there were; where the copies hold no crackles, recordings as they are say how many. */
    @Test
    void itIsFittedOnAlteredCopiesIfTheyAreOfBothKinds() {
        SplittableRandom random = new SplittableRandom(4);
        UnfamiliarScale.Cases altered = cases(random, 300, 0.2, true);
        UnfamiliarScale.Cases plain = cases(random, 300, 0.6, true);
        UnfamiliarScale.Cases without = cases(random, 300, 0.2, false);
        assertThat(stated(UnfamiliarScale.fit(altered, plain))).isLessThan(stated(UnfamiliarScale.fit(plain, altered)));
        assertThat(UnfamiliarScale.fit(without, plain)).isEqualTo(UnfamiliarScale.fit(plain, altered));
    }

    /** What it makes of a recording of which nothing is known. */
    private static double stated(UnfamiliarScale scale) {
        return scale.apply(new double[] {0.5, 0.5, 0, 0, 0}, List.of(window(0.5)), 0)
                .continuous();
    }

    /** Recordings of which so many hold a continuous sound, and half of them crackles; what is said of them tells a little. */
    private static UnfamiliarScale.Cases cases(SplittableRandom random, int n, double share, boolean crackles) {
        UnfamiliarScale.Cases cases = new UnfamiliarScale.Cases();
        for (int i = 0; i < n; i++) {
            boolean continuous = i < share * n;
            boolean both = continuous && crackles && i % 2 == 0;
            double p = Softmax.logistic(random.nextGaussian() + (continuous ? 1 : -1));
            RecordingClass label =
                    both ? RecordingClass.BOTH : continuous ? RecordingClass.CONTINUOUS : RecordingClass.NORMAL;
            cases.add(new double[] {1 - p, p / 2, 0, p / 2, 0}, List.of(window(p)), label);
        }
        return cases;
    }

    /** A window whose continuous sound has this probability. */
    private static WindowAnswer window(double continuous) {
        return new WindowAnswer(
                new double[] {0.8 - 0.8 * continuous, continuous, 0.2 - 0.2 * continuous, 0, 0},
                new double[SegmentClass.COUNT],
                null);
    }
}
