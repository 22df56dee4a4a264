package lungwort.report;

import java.time.Duration;
import java.time.OffsetDateTime;
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

    /** A round is open for half a day: a take added later was told afterwards, and nobody said when it was recorded. */
    private static final Duration SAME_ROUND = Duration.ofHours(12);

    /** True if it was added so long after the round began that the time of adding is not the time of recording. */
    boolean addedLater(OffsetDateTime roundStartedAt) {
        return take.recordedAt().isAfter(roundStartedAt.plus(SAME_ROUND));
    }

    /** When it was heard, as near as is known: when it was added, or the round's beginning where it was added later. */
    OffsetDateTime heardAt(OffsetDateTime roundStartedAt) {
        return addedLater(roundStartedAt) ? roundStartedAt : take.recordedAt();
    }

    /** "08:01"; with its offset from UTC where clocks changed since the round began; or where that would be taken for the time of recording though it is not: "added later, 2026-03-02 19:30 +01:00". */
    String addedWords(OffsetDateTime roundStartedAt) {
        return addedLater(roundStartedAt)
                ? "added later, " + ReportWords.time(take.recordedAt())
                : ReportWords.clock(take.recordedAt(), roundStartedAt.getOffset());
    }

    /** Where and when in the round: "back, lower, left, after a cough". */
    public String place() {
        return take.site().words() + ", " + ReportWords.reason(take.reason());
    }
}
