package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class BoostingTest {
    private static Boosting.Settings settings(int rounds, int leaves, double rate, double l2) {
        return new Boosting.Settings(rounds, leaves, rate, 1, 1, 1, l2, 1);
    }

    /**
     * Chen and Guestrin, KDD 2016, equations 5 and 6, by hand: four rows, two of each class, all scores 0 and so all p = 0.5; each side of the split at 0.5 has gradient sum
     * 2 x 0.5 and curvature sum 2 x 0.25; leaf = -rate x G / (H + l2) = 0.1 x 1 / (0.5 + 1).
     */
    @Test
    void aStumpHasTheSecondOrderLeafValues() {
        float[][] x = {{0}, {0}, {1}, {1}};
        BoostedTrees trees =
                Boosting.fit(x, new int[] {0, 0, 1, 1}, new double[] {1, 1, 1, 1}, 2, settings(1, 2, 0.1, 1));
        double leaf = 0.1 * 1 / (0.5 + 1);
        assertThat(trees.scores(new float[] {0})[0]).isCloseTo(-leaf, within(BoostedTrees.LEAF_STEP));
        assertThat(trees.scores(new float[] {1})[0]).isCloseTo(leaf, within(BoostedTrees.LEAF_STEP));
        assertThat(trees.leafCover(0)).isEqualTo(2);
    }

    @Test
    void startsFromTheLogOddsOfTheWeightedClasses() {
        float[][] x = {{1}, {1}, {1}};
        BoostedTrees trees = Boosting.fit(x, new int[] {0, 1, 1}, new double[] {1, 1, 2}, 2, settings(1, 2, 0.1, 1));
        assertThat(trees.startScore(0)).isCloseTo(Math.log(3.0), within(1e-2));
    }

    @Test
    void findsAnInteractionThatNoSingleFeatureShows() {
        Rows rows = Rows.quadrants(600, 4, 2, 31);
        BoostedTrees trees = Boosting.fit(rows.x, rows.y, rows.weight, 2, settings(60, 8, 0.2, 1));
        assertThat(Rows.accuracy(trees, Rows.quadrants(600, 4, 2, 32))).isGreaterThan(0.9);
    }

    @Test
    void weightsCountAsRepetitionsDo() {
        float[][] x = {{0}, {1}, {1}};
        float[][] repeated = {{0}, {0}, {0}, {1}, {1}};
        int[] y = {0, 1, 0};
        BoostedTrees weighted = Boosting.fit(x, y, new double[] {3, 1, 1}, 2, settings(5, 2, 0.3, 1));
        BoostedTrees plain = Boosting.fit(
                repeated, new int[] {0, 0, 0, 1, 0}, new double[] {1, 1, 1, 1, 1}, 2, settings(5, 2, 0.3, 1));
        for (float v : new float[] {0, 1}) {
            assertThat(weighted.scores(new float[] {v})[0])
                    .isCloseTo(plain.scores(new float[] {v})[0], within(5 * BoostedTrees.LEAF_STEP));
        }
    }

    /**
     * Friedman 2001, section 4.4, by hand: numbers 0, 1, 2, 9 and 10 start from their middle one, 2. Of the low side the differences are 2, 1 and 0, held at 1.5: G = 1.5 + 1 + 0, H = 3. Of the high side they are -7 and -8, held
     * at -1.5 each: G = -3, H = 2. Leaf = -rate x G / (H + l2).
     */
    @Test
    void aStumpForNumbersHoldsWhatIsFarOff() {
        float[][] x = {{0}, {0}, {0}, {1}, {1}};
        BoostedTrees trees = Boosting.fitNumber(x, new double[] {0, 1, 2, 9, 10}, 1.5, settings(1, 2, 0.1, 1));
        assertThat(trees.startScore(0)).isEqualTo(2);
        assertThat(trees.scores(new float[] {0})[0]).isCloseTo(2 - 0.1 * 2.5 / 4, within(BoostedTrees.LEAF_STEP));
        assertThat(trees.scores(new float[] {1})[0]).isCloseTo(2 + 0.1 * 3 / 3, within(BoostedTrees.LEAF_STEP));
    }

    @Test
    void numbersAreLearntFromTheColumnThatMovesThem() {
        Rows rows = Rows.quadrants(600, 4, 2, 33);
        double[] y = new double[rows.x.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = 0.3 * rows.x[i][2];
        }
        // One in fifty is far off; by squares alone they would lead.
        for (int i = 0; i < y.length; i += 50) {
            y[i] = 50;
        }
        BoostedTrees trees = Boosting.fitNumber(rows.x, y, 0.2, settings(100, 8, 0.1, 1));
        double error = 0;
        Rows others = Rows.quadrants(600, 4, 2, 34);
        for (float[] x : others.x) {
            error += Math.abs(trees.scores(x)[0] - 0.3 * x[2]) / others.x.length;
        }
        assertThat(error).isLessThan(0.06);
    }
}
