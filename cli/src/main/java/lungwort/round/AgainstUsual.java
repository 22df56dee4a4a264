package lungwort.round;

import lungwort.diary.Trend;

/**
 * The day of the round against this person's earlier days.
 *
 * @param measure what
 * @param value on that day, in the measure's unit
 * @param usual the earlier days
 * @param outside true if it lies outside all of the earlier days
 */
public record AgainstUsual(Trend.Measure measure, double value, Trend.Usual usual, boolean outside) {}
