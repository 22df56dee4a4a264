package lungwort.report;

import java.util.function.Supplier;
import lungwort.audio.Recording;
import lungwort.diary.Take;
import org.jspecify.annotations.Nullable;

/**
 * One take in a report.
 *
 * @param number its place in the round, from 1
 * @param take the take with its examination; its file name is left out
 * @param recording reads the stored recording when it is asked for; gives null where it is missing or damaged
 * @param shown true if its picture and sound go into the report
 */
public record ReportTake(int number, Take take, Supplier<@Nullable Recording> recording, boolean shown) {
    /** How tables and pictures name it: {@code T3}. */
    public String tag() {
        return "T" + number;
    }

    /** Where and when in the round: "back, lower, left, after a cough". */
    public String place() {
        return take.site().words() + ", " + ReportWords.reason(take.reason());
    }
}
