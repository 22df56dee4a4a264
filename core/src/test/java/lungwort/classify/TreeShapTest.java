package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TreeShapTest {
    private static final int FEATURES = 5;

    private static BoostedTrees grown(int classes) {
        Rows rows = Rows.quadrants(300, FEATURES, classes, 91);
        return Boosting.fit(rows.x, rows.y, rows.weight, classes, new Boosting.Settings(12, 8, 0.3, 1, 0.8, 4, 1, 2));
    }

    @Test
    void sharesAndMeanAddUpToTheScore() {
        BoostedTrees trees = grown(4);
        TreeShap shap = new TreeShap(trees);
        for (float[] x : Rows.quadrants(40, FEATURES, 4, 92).x) {
            double[] scores = trees.scores(x);
            for (int output = 0; output < 4; output++) {
                double[] shares = new double[FEATURES];
                shap.addTo(x, output, 1, shares);
                assertThat(Arrays.stream(shares).sum() + shap.mean(output)).isCloseTo(scores[output], within(1e-9));
            }
        }
    }

    /** Shapley's definition, subset by subset: unknown features are averaged over by the covers, as Lundberg et al. define the path-dependent value. */
    @Test
    void sharesAreShapleysByDefinition() {
        BoostedTrees trees = grown(2);
        TreeShap shap = new TreeShap(trees);
        for (float[] x : Rows.quadrants(10, FEATURES, 2, 93).x) {
            double[] shares = new double[FEATURES];
            shap.addTo(x, 0, 1, shares);
            for (int f = 0; f < FEATURES; f++) {
                assertThat(shares[f]).isCloseTo(byDefinition(trees, x, f), within(1e-9));
            }
        }
    }

    private static double byDefinition(BoostedTrees trees, float[] x, int f) {
        double sum = 0;
        for (int known = 0; known < 1 << FEATURES; known++) {
            if ((known >> f & 1) == 0) {
                int size = Integer.bitCount(known);
                double weight = factorial(size) * factorial(FEATURES - size - 1) / factorial(FEATURES);
                sum += weight * (expected(trees, x, known | 1 << f) - expected(trees, x, known));
            }
        }
        return sum;
    }

    private static double factorial(int n) {
        return IntStream.rangeClosed(1, n).asDoubleStream().reduce(1, (a, b) -> a * b);
    }

    private static double expected(BoostedTrees trees, float[] x, int known) {
        double sum = 0;
        for (int t = 0; t < trees.table().trees(); t++) {
            sum += expected(trees, x, known, trees.table().root(t))[0];
        }
        return sum;
    }

    /** Expected value and cover below a node. */
    private static double[] expected(BoostedTrees trees, float[] x, int known, int node) {
        TreeTable table = trees.table();
        if (table.isLeaf(node)) {
            return new double[] {trees.leafValue(table.leafOf(node)), trees.leafCover(table.leafOf(node))};
        }
        double[] low = expected(trees, x, known, table.lowChild(node));
        double[] high = expected(trees, x, known, table.highChild(node));
        double cover = low[1] + high[1];
        int f = table.feature(node);
        double value = (known >> f & 1) == 0
                ? (low[0] * low[1] + high[0] * high[1]) / cover
                : x[f] <= table.threshold(node) ? low[0] : high[0];
        return new double[] {value, cover};
    }

    /** A blend's shares add up to its log odds, but for a constant that is the same for every vector. */
    @Test
    void sharesOfABlendMoveWithItsLogOdds() {
        Rows rows = Rows.quadrants(300, FEATURES, 4, 94);
        Learner linear = SoftmaxRegression.fit(rows.x, rows.y, rows.weight, 4, new SoftmaxRegression.Settings(30, 100));
        Blend blend = new Blend(FEATURES, IntStream.range(0, FEATURES).toArray(), List.of(linear, grown(4)));
        double constant = Double.NaN;
        for (float[] x : Rows.quadrants(40, FEATURES, 4, 95).x) {
            double odds = 0;
            for (Learner learner : blend.learners()) {
                double[] p = learner.probabilities(x);
                odds += Math.log(p[2] / p[0]) / 2;
            }
            double rest = odds - Arrays.stream(Contributions.of(blend, x, 2, 0)).sum();
            constant = Double.isNaN(constant) ? rest : constant;
            assertThat(rest).isCloseTo(constant, within(1e-4));
        }
    }
}
