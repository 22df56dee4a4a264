package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What {@link PoorRuleFit} promises, on drawn recordings of which a tenth are poor. */
class PoorRuleTest {
    private static final int RECORDINGS = 1000;
    private final boolean[] poor = new boolean[RECORDINGS];
    private final double[][] relative = new double[RECORDINGS][3];
    private final double[] learnt = new double[RECORDINGS];
    private final int[] folds = new int[RECORDINGS];

    private PoorRule fitted() {
        SplittableRandom random = new SplittableRandom(9);
        for (int i = 0; i < RECORDINGS; i++) {
            poor[i] = i % 10 == 0;
            folds[i] = i / 10 % 5;
            relative[i][0] = random.nextGaussian() + (poor[i] ? 1.5 : 0);
            relative[i][1] = random.nextGaussian() + (poor[i] ? 1 : 0);
            relative[i][2] = random.nextGaussian();
            learnt[i] = 1 / (1 + Math.exp(-(random.nextGaussian() - (poor[i] ? 0.5 : 2.5))));
        }
        return Objects.requireNonNull(PoorRuleFit.fit(relative, learnt, poor, folds));
    }

    @Test
    void atMostOneInTwentyOfTheGoodIsRefusedAndMostOfThePoorAre() {
        PoorRule rule = fitted();
        assertThat(refused(rule, false)).isBetween(0.03, PoorRuleFit.MAX_GOOD_REFUSED + 0.01);
        assertThat(refused(rule, true)).isGreaterThan(0.5);
    }

    @Test
    void bothTogetherKnowMoreThanEither() {
        PoorRule rule = fitted();
        assertThat(java.util.Arrays.stream(rule.together().weights()).min().orElseThrow())
                .isPositive();
        assertThat(rule.measures().weights()[0])
                .isGreaterThan(Math.abs(rule.measures().weights()[2]));
    }

    /** Another device may look poor to the model: alone it must not refuse what the measures find usual. */
    @Test
    void theLearntProbabilityAloneRefusesNothing() {
        PoorRule rule = fitted();
        double[] usual = {0, 0, 0};
        assertThat(rule.answer(usual, 0.99).refused()).isFalse();
        assertThat(rule.answer(new double[] {3, 3, 0}, 0.99).refused()).isTrue();
        assertThat(rule.answer(new double[] {3, 3, 0}, 0.99).probability())
                .isGreaterThan(rule.answer(usual, 0.99).probability());
    }

    @Test
    void withoutPoorRecordingsThereIsNoRule() {
        fitted();
        assertThat(PoorRuleFit.fit(relative, learnt, new boolean[RECORDINGS], folds))
                .isNull();
        assertThat(PoorRuleFit.fit(new double[0][], new double[0], new boolean[0], new int[0]))
                .isNull();
    }

    private double refused(PoorRule rule, boolean which) {
        int n = 0;
        int all = 0;
        for (int i = 0; i < RECORDINGS; i++) {
            if (poor[i] == which) {
                all++;
                n += rule.answer(relative[i], learnt[i]).refused() ? 1 : 0;
            }
        }
        return (double) n / all;
    }
}
