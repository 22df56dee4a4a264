package lungwort.classify;

import java.util.List;

/**
 * What each feature adds to the log odds of one class against another: weights times scores for linear learners, Shapley values for boosted trees, averaged as the blend averages.
 * Learners of other kinds are not explained; the models that Lungwort explains hold none.
 */
final class Contributions {
    private Contributions() {}

    /**
     * @param blend of linear and tree learners
     * @param x feature vector in the order of the catalogue
     * @param classFor class argued for
     * @param classAgainst class argued against
     * @return share of each feature of the catalogue, on the logit scale
     */
    static double[] of(Blend blend, float[] x, int classFor, int classAgainst) {
        int[] columns = blend.columns();
        float[] chosen = Blend.choose(x, columns);
        double[] shares = new double[columns.length];
        List<Learner> learners = blend.learners();
        for (Learner learner : learners) {
            double factor = 1.0 / learners.size();
            if (learner instanceof LinearSoftmax linear) {
                linear.addShares(chosen, classFor, factor, shares);
                linear.addShares(chosen, classAgainst, -factor, shares);
            } else if (learner instanceof BoostedTrees trees && trees.classes() > 2) {
                TreeShap shap = new TreeShap(trees);
                shap.addTo(chosen, classFor, factor, shares);
                shap.addTo(chosen, classAgainst, -factor, shares);
            }
        }
        double[] all = new double[x.length];
        for (int j = 0; j < columns.length; j++) {
            all[columns[j]] = shares[j];
        }
        return all;
    }
}
