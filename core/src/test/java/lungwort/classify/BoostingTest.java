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
}
