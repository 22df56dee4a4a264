package lungwort.score;

/**
 * How recordings are measured.
 *
 * @param progress told how far the work is
 * @param cache where measurements are kept
 */
public record Measuring(Progress progress, MeasureCache cache) {
    /** Says nothing, keeps nothing. */
    public static final Measuring PLAIN = new Measuring(Progress.SILENT, MeasureCache.NONE);
}
