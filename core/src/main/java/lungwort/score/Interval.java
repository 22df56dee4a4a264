package lungwort.score;

/**
 * A confidence interval.
 *
 * @param low lower end
 * @param high upper end
 * @param resamples how many resamples it stands on; those in which the figure was undefined are not counted
 */
public record Interval(double low, double high, int resamples) {}
