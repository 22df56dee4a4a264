package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** By hand from the definition of the expected calibration error (Naeini et al., AAAI 2015 [M]) and of the Brier score (Brier 1950). */
class CalibrationTest {
    @Test
    void expectedErrorOfTwoBinsByHand() {
        // [0, 0.5): 0.1, 0.3 with 0 of 2 true: |0 - 0.2| * 2 / 5. [0.5, 1]: 0.6, 0.8, 1.0 with 2 of 3 true: |2/3 - 0.8|
        // * 3 / 5.
        double[] p = {0.1, 0.3, 0.6, 0.8, 1.0};
        boolean[] truth = {false, false, true, false, true};
        assertThat(Calibration.expectedError(p, truth, 2)).isEqualTo(0.08 + 0.08, within(1e-12));
    }

    @Test
    void binsKnowTheirEdgesCountsAndShares() {
        List<Calibration.Bin> bins = Calibration.bins(new double[] {0, 0.25, 1}, new boolean[] {false, true, true}, 4);
        assertThat(bins).hasSize(4);
        assertThat(bins.get(0)).isEqualTo(new Calibration.Bin(0, 0.25, 1, 0, 0));
        assertThat(bins.get(1)).isEqualTo(new Calibration.Bin(0.25, 0.5, 1, 0.25, 1));
        assertThat(bins.get(2).count()).isZero();
        assertThat(bins.get(2).meanProbability()).isNaN();
        assertThat(bins.get(3)).isEqualTo(new Calibration.Bin(0.75, 1, 1, 1, 1));
    }

    @Test
    void outcomesDrawnWithTheStatedProbabilityAreNearlyCalibratedAndOverconfidentOnesAreNot() {
        Random random = new Random(1);
        double[] p = random.doubles(20_000).toArray();
        double[] sharpened = new double[p.length];
        boolean[] truth = new boolean[p.length];
        for (int i = 0; i < p.length; i++) {
            truth[i] = random.nextDouble() < p[i];
            sharpened[i] = p[i] < 0.5 ? p[i] * p[i] : 1 - (1 - p[i]) * (1 - p[i]);
        }
        assertThat(Calibration.expectedError(p, truth, 15)).isLessThan(0.02);
        assertThat(Calibration.expectedError(sharpened, truth, 15)).isGreaterThan(0.1);
    }

    @Test
    void brierIsTheMeanSquaredDifference() {
        assertThat(Calibration.brier(new double[] {0.9, 0.2}, new boolean[] {true, false}))
                .isEqualTo((0.01 + 0.04) / 2, within(1e-12));
    }

    @Test
    void withoutItemsItIsUndefined() {
        assertThat(Calibration.expectedError(new double[0], new boolean[0], 15)).isNaN();
        assertThat(Calibration.brier(new double[0], new boolean[0])).isNaN();
    }

    @Test
    void aProbabilityOutsideZeroToOneIsAFault() {
        assertThatThrownBy(() -> Calibration.expectedError(new double[] {1.01}, new boolean[] {true}, 15))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("probability 1.01 is outside 0 to 1");
        assertThatThrownBy(() -> Calibration.brier(new double[] {Double.NaN}, new boolean[] {true}))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
