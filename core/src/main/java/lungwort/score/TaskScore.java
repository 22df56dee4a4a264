package lungwort.score;

/**
 * The score of one task of the SPRSound challenge (Zhang et al., IEEE TBioCAS 2022): all in [0, 1].
 *
 * <p>SE is the share of adventitious items that were given their exact class, SP the share of normal items called normal, AS = (SE + SP) / 2, HS = 2 SE SP / (SE + SP),
 * and the task's score (AS + HS) / 2.
 *
 * @param sensitivity SE; NaN if no item was adventitious
 * @param specificity SP; NaN if no item was normal
 */
public record TaskScore(double sensitivity, double specificity) {
    /** AS, the arithmetic mean of SE and SP. */
    public double averageScore() {
        return (sensitivity + specificity) / 2;
    }

    /** HS, the harmonic mean of SE and SP; 0 where both are 0. */
    public double harmonicScore() {
        double sum = sensitivity + specificity;
        return sum == 0 ? 0 : 2 * sensitivity * specificity / sum;
    }

    /** (AS + HS) / 2. */
    public double score() {
        return (averageScore() + harmonicScore()) / 2;
    }

    /** True if there were normal and adventitious items. */
    public boolean defined() {
        return !Double.isNaN(sensitivity) && !Double.isNaN(specificity);
    }
}
