package lungwort.classify;

/**
 * How the quality measures and the learnt probability tell together whether a recording is too poor to judge.
 *
 * <p>The measures are those that compare the recording with itself ({@link lungwort.quality.QualityMeasures#relative}); they hold under other devices. The learnt probability knows more of the training
 * set's recordings and less of others. So the log-odds of both are added by weights, and a recording is refused where the sum says poor and the measures alone do not speak against it.
 *
 * @param measures log-odds of poor quality from the measures alone
 * @param together log-odds from two columns: that, and the logit of the calibrated learnt probability
 * @param measuredFrom log-odds of the measures alone from which they allow a refusal
 * @param togetherFrom log-odds together from which a recording is refused
 */
public record PoorRule(RidgeLogistic measures, RidgeLogistic together, double measuredFrom, double togetherFrom) {
    public PoorRule {
        if (together.weights().length != 2 || !Double.isFinite(measuredFrom) || !Double.isFinite(togetherFrom)) {
            throw new IllegalArgumentException("limits of poor quality %s and %s, %d columns"
                    .formatted(measuredFrom, togetherFrom, together.weights().length));
        }
    }

    /**
     * What it says of one recording.
     *
     * @param probability that a listener would call it too poor to judge, in [0, 1]
     * @param refused true if nothing should be suggested from it
     */
    public record Answer(double probability, boolean refused) {}

    /**
     * @param relative {@link lungwort.quality.QualityMeasures#relative} of the recording
     * @param learnt calibrated probability of poor quality by the model
     */
    public Answer answer(double[] relative, double learnt) {
        double measured = measures.logOdds(relative);
        double both = together.logOdds(columns(measured, learnt));
        return new Answer(Softmax.logistic(both), refuses(measured, both));
    }

    /**
     * What each measure adds to the log-odds of the measures alone, against the mean of the recordings learnt from: positive speaks for poor.
     *
     * @param relative {@link lungwort.quality.QualityMeasures#relative} of the recording
     * @return shape {@code [relative.length]}
     */
    public double[] contributions(double[] relative) {
        return measures.parts(relative);
    }

    boolean refuses(double measured, double both) {
        return measured >= measuredFrom && both >= togetherFrom;
    }

    static double[] columns(double measured, double learnt) {
        return new double[] {measured, ContextFeatures.logit(learnt)};
    }
}
