package lungwort.classify;

import java.util.ArrayList;
import java.util.List;

/**
 * Makes one probability of what the bursts of a window say and of how far the breaths of its recording agree about where bursts stand
 * ({@link lungwort.sound.BreathAgreement}): {@code 1 / (1 + exp(-(slope logit + perDeviation deviations + offset)))}.
 *
 * <p>How much the agreement counts against the bursts is learnt where devices and rooms differ: from altered copies, through which bursts tell less and the agreement holds. Slope and offset are then
 * fitted to recordings as they are, so that the probability stays honest there.
 *
 * @param slope of the logit that the bursts' model gives
 * @param perDeviation log odds for each deviation of {@link lungwort.sound.BreathAgreement#deviations}, never negative: breaths that do not agree may still crackle
 * @param offset on the logit scale
 */
record BurstsScale(double slope, double perDeviation, double offset) {
    /** Leaves the bursts' probability as it is. */
    static final BurstsScale NONE = new BurstsScale(1, 0, 0);

    private static final double RIDGE = 1;

    BurstsScale {
        if (!Double.isFinite(slope) || !Double.isFinite(offset) || !(perDeviation >= 0 && perDeviation < 100)) {
            throw new IllegalArgumentException("a scale of bursts that is no number");
        }
    }

    double logOdds(double byBursts, double deviations) {
        return slope * WindowAnswer.logit(byBursts) + perDeviation * deviations + offset;
    }

    double apply(double byBursts, double deviations) {
        return Softmax.logistic(logOdds(byBursts, deviations));
    }

    /** Windows with what models that had not seen their patients said of them. */
    static final class Cases {
        private final List<double[]> rows = new ArrayList<>();
        private final List<Boolean> truths = new ArrayList<>();

        void add(double byBursts, double deviations, boolean discontinuous) {
            rows.add(new double[] {WindowAnswer.logit(byBursts), deviations});
            truths.add(discontinuous);
        }

        private boolean ofBothKinds() {
            return truths.contains(true) && truths.contains(false);
        }

        private boolean[] truth() {
            boolean[] truth = new boolean[truths.size()];
            for (int i = 0; i < truth.length; i++) {
                truth[i] = truths.get(i);
            }
            return truth;
        }

        /** How many units of logit a deviation is worth. */
        private double ratio() {
            RidgeLogistic fit = RidgeLogistic.fit(rows.toArray(double[][]::new), truth(), RIDGE);
            double perLogit = fit.weights()[0] / fit.scale()[0];
            double perDeviation = fit.weights()[1] / fit.scale()[1];
            return perLogit > 0 ? Math.max(0, perDeviation / perLogit) : 0;
        }

        private BurstsScale scaled(double ratio) {
            double[][] sums =
                    rows.stream().map(r -> new double[] {r[0] + ratio * r[1]}).toArray(double[][]::new);
            RidgeLogistic fit = RidgeLogistic.fit(sums, truth(), RIDGE);
            double slope = fit.weights()[0] / fit.scale()[0];
            return new BurstsScale(slope, Math.max(0, slope * ratio), fit.offset() - slope * fit.mean()[0]);
        }
    }

    /**
     * @param varied windows of recordings that were altered as other devices and rooms alter sound; if they are not of both kinds, {@code plain} stands in
     * @param plain windows of recordings as they are
     * @return {@link #NONE} if those are not of both kinds
     */
    static BurstsScale fit(Cases varied, Cases plain) {
        if (!plain.ofBothKinds()) {
            return NONE;
        }
        return plain.scaled((varied.ofBothKinds() ? varied : plain).ratio());
    }
}
