package lungwort.classify;

/** Scores to probabilities. */
final class Softmax {
    private Softmax() {}

    /** The same for two classes, of the difference of their scores (the log odds). */
    static double logistic(double logOdds) {
        return 1 / (1 + Math.exp(-logOdds));
    }

    /** Replaces scores by {@code exp(score) / sum exp(score)} and returns the same array. */
    static double[] inPlace(double[] score) {
        double max = Double.NEGATIVE_INFINITY;
        for (double s : score) {
            max = Math.max(max, s);
        }
        double sum = 0;
        for (int i = 0; i < score.length; i++) {
            score[i] = Math.exp(score[i] - max);
            sum += score[i];
        }
        for (int i = 0; i < score.length; i++) {
            score[i] /= sum;
        }
        return score;
    }
}
