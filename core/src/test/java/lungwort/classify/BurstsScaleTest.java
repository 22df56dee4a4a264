package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class BurstsScaleTest {
    private static final int N = 20_000;

    /** Windows whose truth follows the given logistic law of the bursts' logit and of the agreement. */
    private static BurstsScale.Cases cases(double slope, double perDeviation, double offset, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        BurstsScale.Cases cases = new BurstsScale.Cases();
        for (int i = 0; i < N; i++) {
            double logit = -1 + random.nextGaussian();
            double deviations = 1 + random.nextGaussian();
            double p = logistic(slope * logit + perDeviation * deviations + offset);
            cases.add(logistic(logit), deviations, random.nextDouble() < p);
        }
        return cases;
    }

    private static double logistic(double x) {
        return 1 / (1 + Math.exp(-x));
    }

    /** The law is known, so the fit must find it (maximum likelihood is consistent; 20,000 rows leave a few hundredths). */
    @Test
    void theLawThatMadeTheCasesIsFound() {
        BurstsScale scale = BurstsScale.fit(new BurstsScale.Cases(), cases(0.8, 0.5, -0.3, 1));
        assertThat(scale.slope()).isEqualTo(0.8, within(0.08));
        assertThat(scale.perDeviation()).isEqualTo(0.5, within(0.06));
        assertThat(scale.offset()).isEqualTo(-0.3, within(0.1));
    }

    @Test
    void alteredCopiesSayHowMuchTheAgreementCounts() {
        BurstsScale scale = BurstsScale.fit(cases(0.5, 0.4, 0, 2), cases(1, 0.2, 0, 3));
        assertThat(scale.perDeviation() / scale.slope()).isEqualTo(0.8, within(0.1));
    }

    /** The intercept's equation of a fitted logistic model: what it states adds up to what was there. */
    @Test
    void recordingsAsTheyAreKeepItHonest() {
        double stated = 0;
        int there = 0;
        BurstsScale scale = BurstsScale.fit(cases(0.5, 0.4, 0, 4), cases(1, 0.2, -1, 5));
        SplittableRandom random = new SplittableRandom(6);
        for (int i = 0; i < N; i++) {
            double logit = -1 + random.nextGaussian();
            double deviations = 1 + random.nextGaussian();
            stated += scale.apply(logistic(logit), deviations);
            there += random.nextDouble() < logistic(logit + 0.2 * deviations - 1) ? 1 : 0;
        }
        assertThat(stated / N).isEqualTo((double) there / N, within(0.01));
    }

    @Test
    void breathsThatDoNotAgreeNeverSpeakAgainstCrackles() {
        BurstsScale scale = BurstsScale.fit(new BurstsScale.Cases(), cases(1, -0.5, 0, 7));
        assertThat(scale.perDeviation()).isZero();
    }

    @Test
    void nothingIsScaledWhereThereIsNothingToTellApart() {
        BurstsScale.Cases one = new BurstsScale.Cases();
        one.add(0.3, 1, false);
        assertThat(BurstsScale.fit(cases(1, 1, 0, 8), one)).isEqualTo(BurstsScale.NONE);
        assertThat(BurstsScale.NONE.apply(0.3, 5)).isEqualTo(0.3, within(1e-9));
    }

    /** The agreement moves what a window is taken for, and leaves what is pooled as it is. */
    @Test
    void agreementRaisesTheProbabilityOfAWindow() {
        double[] even = {0.2, 0.2, 0.2, 0.2, 0.2};
        WindowAnswer without = new WindowAnswer(even, new double[7], new WindowAnswer.Bursts(0.3, 0.3));
        WindowAnswer with = new WindowAnswer(even, new double[7], new WindowAnswer.Bursts(0.3, 0.6));
        assertThat(with.discontinuous()).isGreaterThan(without.discontinuous());
        assertThat(with.continuous()).isEqualTo(without.continuous());
        assertThat(PoolFeatures.of(java.util.List.of(with), null, new float[3]))
                .isEqualTo(PoolFeatures.of(java.util.List.of(without), null, new float[3]));
    }
}
