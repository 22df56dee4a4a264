package lungwort.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.OffsetDateTime;
import java.util.UUID;
import lungwort.diary.Take;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import org.junit.jupiter.api.Test;

/** When a take was added, in a round of the night in which clocks went back in Berlin: 02:30 came twice on 2026-10-25 (IANA time zone database). [P] */
class ReportTakeTest {
    private static final OffsetDateTime ROUND = OffsetDateTime.parse("2026-10-25T02:40+02:00");

    private static ReportTake at(String time) {
        Take take = new Take(
                UUID.randomUUID(),
                UUID.randomUUID(),
                Sites.of("neck"),
                TakeReason.FIRST,
                OffsetDateTime.parse(time),
                "00",
                "a.wav",
                null,
                false,
                null,
                null);
        return new ReportTake(1, take, () -> null, false);
    }

    @Test
    void aTakeAfterTheChangeSaysWhichClock() {
        assertThat(at("2026-10-25T02:50+02:00").addedWords(ROUND)).isEqualTo("02:50");
        assertThat(at("2026-10-25T02:10+01:00").addedWords(ROUND)).isEqualTo("02:10 +01:00");
    }

    /** Common practice: a round is open for twelve hours that passed, whatever the clocks say. [C] */
    @Test
    void twelveHoursAreHoursThatPassed() {
        assertThat(at("2026-10-25T13:40+01:00").addedLater(ROUND)).isFalse();
        assertThat(at("2026-10-25T13:41+01:00").addedLater(ROUND)).isTrue();
        assertThat(at("2026-10-25T13:41+01:00").addedWords(ROUND)).isEqualTo("added later, 2026-10-25 13:41 +01:00");
    }
}
