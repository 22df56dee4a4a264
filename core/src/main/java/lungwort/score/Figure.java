package lungwort.score;

/**
 * A figure with its 95 % interval.
 *
 * @param value the figure on all items; NaN where it is undefined
 * @param ci95 by resampling patients
 */
public record Figure(double value, Interval ci95) {}
