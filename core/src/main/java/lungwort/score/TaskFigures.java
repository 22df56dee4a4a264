package lungwort.score;

/**
 * One task's score with the interval of each of its parts.
 *
 * @param value the score on all items
 * @param se interval of SE
 * @param sp interval of SP
 * @param as interval of AS
 * @param hs interval of HS
 * @param score interval of the task's score
 */
public record TaskFigures(TaskScore value, Interval se, Interval sp, Interval as, Interval hs, Interval score) {}
