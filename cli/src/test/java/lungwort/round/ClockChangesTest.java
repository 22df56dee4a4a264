package lungwort.round;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.zone.ZoneOffsetTransition;
import java.util.ArrayList;
import java.util.List;
import lungwort.BadInput;
import lungwort.diary.Day;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.guidance.UsualSpo2;
import lungwort.guidance.Vitals;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Nights in which clocks change, and journeys. Rounds stand in the order in which they were made, and days are counted as the person who made them would: by the date on the wall.
 *
 * <p>The moments are those of the IANA time zone database as {@code zdump -v -c 2026,2028} prints them. [P] That days are local days is common practice. [C]
 */
class ClockChangesTest {
    @TempDir
    Path temp;

    private final Examples.MovingClock clock = new Examples.MovingClock();
    private Diary diary;
    private RoundService service;
    private Person mia;

    @BeforeEach
    void begin() {
        diary = Diary.open(temp.resolve("diary"), clock);
        service = Examples.service(diary);
        mia = Examples.person(diary, "Mia");
    }

    @AfterEach
    void close() {
        diary.close();
    }

    private Round round(Instant at, int spo2) {
        clock.set(at);
        Round round = diary.rounds().start(mia.id()).with(Vitals.NONE.withSpo2(spo2));
        diary.rounds().change(round);
        return round;
    }

    private Round round(ZoneId zone, LocalDate day, String time, int spo2) {
        return round(day.atTime(LocalTime.parse(time)).atZone(zone).toInstant(), spo2);
    }

    private Round breathing(ZoneId zone, LocalDate day, String time, int rate) {
        clock.set(day.atTime(LocalTime.parse(time)).atZone(zone).toInstant());
        Round round = diary.rounds().start(mia.id()).with(Vitals.NONE.withRespiratoryRate(rate));
        diary.rounds().change(round);
        return round;
    }

    private List<Round> rounds() {
        return diary.rounds().ofPerson(mia.id());
    }

    private List<Integer> roundsByDay(LocalDate first, LocalDate last) {
        return Trend.of(diary, mia.id(), first, last).days().stream()
                .map(Day::rounds)
                .toList();
    }

    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-10-25T01:00:00Z, 2026-10-25T02:30",
        "Europe/Berlin,    2027-10-31T01:00:00Z, 2027-10-31T02:30",
        "America/New_York, 2026-11-01T06:00:00Z, 2026-11-01T01:30",
        "America/New_York, 2027-11-07T06:00:00Z, 2027-11-07T01:30"
    })
    void theHourThatComesTwiceHoldsTwoRoundsInTheirOrder(ZoneId zone, Instant back, LocalDateTime twice) {
        clock.travelTo(zone);
        Round before = round(back.minus(Duration.ofMinutes(30)), 95);
        Round after = round(back.plus(Duration.ofMinutes(30)), 92);

        assertThat(before.startedAt().toLocalDateTime()).isEqualTo(twice);
        assertThat(after.startedAt().toLocalDateTime()).isEqualTo(twice);
        assertThat(rounds()).containsExactly(before, after);
        assertThat(diary.rounds().newest(mia.id())).contains(after);
        assertThat(diary.rounds().open(mia.id())).contains(after);
        assertThat(rounds())
                .extracting(r -> r.startedAt().getOffset().getTotalSeconds())
                .containsExactly(offset(zone, back.minusSeconds(1)), offset(zone, back));
        assertThat(roundsByDay(twice.toLocalDate().minusDays(1), twice.toLocalDate()))
                .containsExactly(0, 2);
        assertThat(Trend.of(diary, mia.id(), twice.toLocalDate(), twice.toLocalDate())
                        .days())
                .extracting(Day::spo2Percent)
                .containsExactly(92);
    }

    private static int offset(ZoneId zone, Instant at) {
        return zone.getRules().getOffset(at).getTotalSeconds();
    }

    @ParameterizedTest
    @CsvSource({"Europe/Berlin, 2026-10-25T01:00:00Z", "America/New_York, 2027-11-07T06:00:00Z"})
    void takesOfARoundAcrossTheChangeKeepTheirOrder(ZoneId zone, Instant back) {
        clock.travelTo(zone);
        Round round = round(back.minus(Duration.ofMinutes(20)), 95);
        clock.set(back.minus(Duration.ofMinutes(5)));
        Take first = take(round, TakeReason.FIRST, "wheezes 3");
        clock.set(back.plus(Duration.ofMinutes(5)));
        Take afterCough = take(round, TakeReason.AFTER_COUGH, "wheezes 0");

        assertThat(afterCough.recordedAt().toLocalDateTime())
                .isEqualTo(first.recordedAt().toLocalDateTime().minusMinutes(50));
        assertThat(service.view(round.id()).sites().get(0).takes()).containsExactly(first, afterCough);
        assertThat(service.view(round.id()).sites().get(0).changes()).hasSize(1);
    }

    private Take take(Round round, TakeReason reason, String sound) {
        return service.add(
                new NewTake(round.id(), Sites.of("back-lower-left"), reason, "take.wav"),
                sound.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void theOffsetsOutliveReopeningAndAnArchive() {
        ZoneId zone = ZoneId.of("Europe/Berlin");
        clock.travelTo(zone);
        Round before = round(Instant.parse("2026-10-25T00:30:00Z"), 95);
        Round after = round(Instant.parse("2026-10-25T01:30:00Z"), 92);
        Path archive = temp.resolve("copy.zip");
        diary.archive().write(archive, null);
        diary.close();

        // read where the clocks are others
        clock.travelTo(ZoneId.of("America/New_York"));
        diary = Diary.open(temp.resolve("diary"), clock);
        assertThat(rounds()).containsExactly(before, after);
        try (Diary other = Diary.open(temp.resolve("other"), clock)) {
            other.archive().read(archive);
            assertThat(other.rounds().ofPerson(mia.id())).containsExactly(before, after);
            assertThat(other.rounds().ofPerson(mia.id()))
                    .extracting(Round::day)
                    .containsOnly(LocalDate.of(2026, 10, 25));
        }
    }

    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-03-29, 23",
        "Europe/Berlin,    2026-10-25, 25",
        "Europe/Berlin,    2027-03-28, 23",
        "Europe/Berlin,    2027-10-31, 25",
        "America/New_York, 2026-03-08, 23",
        "America/New_York, 2026-11-01, 25",
        "America/New_York, 2027-03-14, 23",
        "America/New_York, 2027-11-07, 25"
    })
    void aShortAndALongDayAreOneDayEach(ZoneId zone, LocalDate day, int hours) {
        Instant midnight = day.atStartOfDay(zone).toInstant();
        Instant next = day.plusDays(1).atStartOfDay(zone).toInstant();
        assertThat(Duration.between(midnight, next)).isEqualTo(Duration.ofHours(hours));
        clock.travelTo(zone);
        round(midnight.minusSeconds(1), 95);
        round(midnight, 94);
        round(next.minusSeconds(1), 93);
        round(next, 96);

        assertThat(roundsByDay(day.minusDays(1), day.plusDays(1))).containsExactly(1, 2, 1);
        assertThat(Trend.of(diary, mia.id(), day.minusDays(1), day.plusDays(1)).days())
                .extracting(Day::spo2Percent)
                .containsExactly(95, 93, 96);
    }

    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-03-29",
        "Europe/Berlin,    2026-10-25",
        "America/New_York, 2027-03-14",
        "America/New_York, 2027-11-07"
    })
    void theUsualIsOfTheSameDaysWhetherClocksChangeOrNot(ZoneId zone, LocalDate change) {
        clock.travelTo(zone);
        LocalDate today = change.plusDays(5);
        LocalDate oldest = today.minusDays(Trend.RECENT_DAYS);
        breathing(zone, oldest.minusDays(1), "23:59", 28);
        breathing(zone, oldest, "00:00", 24);
        breathing(zone, change, "12:00", 27);
        breathing(zone, today.minusDays(1), "23:59", 26);
        Round now = breathing(zone, today, "00:00", 21);

        AgainstUsual rate = service.view(now.id()).usual().stream()
                .filter(u -> u.measure() == Trend.Measure.RATE)
                .findFirst()
                .orElseThrow();
        assertThat(rate.usual()).isEqualTo(new Trend.Usual(26, 24, 27, 3, true, oldest, today.minusDays(1)));
        assertThat(rate.value()).isEqualTo(21);
    }

    /** Of the last days a median of 96, with the minute before them 95.5: only with the right days it is of three. */
    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-03-29",
        "Europe/Berlin,    2026-10-25",
        "America/New_York, 2027-03-14",
        "America/New_York, 2027-11-07"
    })
    void theUsualSpo2IsOfTheSameDaysWhetherClocksChangeOrNot(ZoneId zone, LocalDate change) {
        clock.travelTo(zone);
        LocalDate today = change.plusDays(5);
        LocalDate oldest = today.minusDays(Trend.RECENT_DAYS);
        round(zone, oldest.minusDays(1), "23:59", 94);
        round(zone, oldest, "00:00", 96);
        round(zone, change, "12:00", 97);
        round(zone, today.minusDays(1), "23:59", 95);
        Round now = round(zone, today, "00:00", 60);

        assertThat(Examples.usualSpo2(service.diary(), mia, now.day()))
                .isEqualTo(new UsualSpo2(
                        96,
                        "of 3 days from %s to %s, none of which asked for a clinician"
                                .formatted(oldest, today.minusDays(1))));
        assertThat(service.view(now.id()).usual())
                .filteredOn(u -> u.measure() == Trend.Measure.SPO2)
                .containsExactly(new AgainstUsual(
                        Trend.Measure.SPO2,
                        60,
                        new Trend.Usual(96, 95, 97, 3, true, oldest, today.minusDays(1)),
                        true));
    }

    /** A usual that is stated on the day of the change counts from its first minute; what was measured until its last minute makes none any more. */
    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-03-29",
        "Europe/Berlin,    2026-10-25",
        "America/New_York, 2027-03-14",
        "America/New_York, 2027-11-07"
    })
    void aStatedUsualCountsFromItsDayWhetherClocksChangeOrNot(ZoneId zone, LocalDate change) {
        clock.travelTo(zone);
        for (int before = 3; before > 0; before--) {
            round(zone, change.minusDays(before), "23:59", 98);
        }
        round(zone, change, "23:59", 99);
        round(zone, change.plusDays(1), "00:00", 94);
        round(zone, change.plusDays(2), "12:00", 95);
        round(zone, change.plusDays(3), "23:59", 96);
        Person stated = mia.withLimits(
                ClinicianLimits.NONE.withUsualSpo2(new StatedUsual(93, change, null, "Dr A. Example", "")));

        assertThat(Examples.usualSpo2(service.diary(), stated, change))
                .isEqualTo(new UsualSpo2(93, "stated by a clinician, from %s on".formatted(change)));
        assertThat(Examples.usualSpo2(service.diary(), stated, change.plusDays(4)))
                .isEqualTo(new UsualSpo2(
                        95,
                        "of 3 days from %s to %s, none of which asked for a clinician"
                                .formatted(change.plusDays(1), change.plusDays(3))));
    }

    @Test
    void afterAJourneyEastwardRoundsStandByTheMomentAndDaysByTheDateThere() {
        clock.travelTo(ZoneId.of("America/New_York"));
        Round leaving = round(Instant.parse("2026-06-01T22:00:00Z"), 95); // 18:00 on 1 June
        clock.travelTo(ZoneId.of("Europe/Berlin"));
        Round arrived = round(Instant.parse("2026-06-02T06:00:00Z"), 93); // 08:00 on 2 June
        // earlier by the clock on the wall than the round before it, later in truth
        clock.travelTo(ZoneId.of("America/New_York"));
        Round back = round(Instant.parse("2026-06-02T11:00:00Z"), 94); // 07:00 on 2 June

        assertThat(rounds()).containsExactly(leaving, arrived, back);
        assertThat(back.startedAt().toLocalDateTime())
                .isBefore(arrived.startedAt().toLocalDateTime());
        assertThat(diary.rounds().newest(mia.id())).contains(back);
        assertThat(roundsByDay(LocalDate.of(2026, 6, 1), LocalDate.of(2026, 6, 2)))
                .containsExactly(1, 2);
    }

    @Test
    void whereTheDateGoesBackOnAJourneyTheLastDayIsThatOfTheLatestDate() {
        clock.travelTo(ZoneId.of("Asia/Tokyo"));
        round(Instant.parse("2026-06-01T23:00:00Z"), 95); // 08:00 on 2 June
        clock.travelTo(ZoneId.of("America/New_York"));
        clock.set("2026-06-02T00:00:00Z"); // 20:00 on 1 June

        assertThat(diary.lastDay(mia.id())).isEqualTo(LocalDate.of(2026, 6, 2));

        Round evening = round(Instant.parse("2026-06-02T01:00:00Z"), 93); // 21:00 on 1 June
        assertThat(diary.rounds().newest(mia.id())).contains(evening);
        assertThat(diary.lastDay(mia.id())).isEqualTo(LocalDate.of(2026, 6, 2));
        clock.set("2026-06-03T12:00:00Z");
        assertThat(diary.lastDay(mia.id())).isEqualTo(LocalDate.of(2026, 6, 3));
    }

    /** Else what is finished, gone on with or reported after the clock was put right would be that of the wrong day. */
    @Test
    void aRoundDatedByAClockThatWentAheadIsNotTakenForTheNewest() {
        Round ahead = round(Instant.parse("2099-01-01T08:00:00Z"), 99);
        clock.set("2026-03-01T08:00:00Z");
        assertThat(diary.rounds().newest(mia.id()).map(Round::id)).contains(ahead.id());
        assertThat(RoundService.goingOn(diary, mia)).isEmpty();

        Round now = round(Instant.parse("2026-03-01T08:00:00Z"), 91);

        assertThat(diary.rounds().newest(mia.id()).map(Round::id)).contains(now.id());
        assertThat(RoundService.goingOn(diary, mia).map(Round::id)).contains(now.id());
        service.finish(ahead.id());
        service.finish(now.id());
        assertThat(diary.rounds().newestFinished(mia.id()).map(Round::id)).contains(now.id());
    }

    @Test
    void aNoteOfTheLaterDateCountsForTheLastDayToo() {
        clock.travelTo(ZoneId.of("Asia/Tokyo"));
        clock.set("2026-06-01T23:00:00Z");
        diary.notes().add(mia.id(), null, "slept on the plane");
        clock.travelTo(ZoneId.of("America/New_York"));

        assertThat(diary.lastDay(mia.id())).isEqualTo(LocalDate.of(2026, 6, 2));
    }

    @Test
    void aRoundOfAClockThatWentWrongDoesNotMoveTheLastDay() {
        round(Instant.parse("2036-06-01T12:00:00Z"), 95);
        clock.set("2026-06-02T12:00:00Z");

        assertThat(diary.lastDay(mia.id())).isEqualTo(LocalDate.of(2026, 6, 2));
    }

    private RoundFile file(String startedAt, ZoneId zone) throws IOException {
        Path folder = Files.createDirectories(temp.resolve("folder"));
        Files.writeString(
                folder.resolve(RoundFile.NAME),
                "{\"startedAt\": \"%s\", \"takes\": [{\"file\": \"1.wav\", \"site\": \"neck\"}]}".formatted(startedAt));
        return RoundFile.read(folder, zone);
    }

    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-10-25T02:30, +02:00, +01:00",
        "Europe/Berlin,    2027-10-31T02:00, +02:00, +01:00",
        "America/New_York, 2026-11-01T01:59, -04:00, -05:00",
        "America/New_York, 2027-11-07T01:30, -04:00, -05:00"
    })
    void aTimeThatCameTwiceIsNotGuessed(ZoneId zone, String time, String first, String second) throws IOException {
        assertThatThrownBy(() -> file(time, zone))
                .isInstanceOf(BadInput.class)
                .hasMessageEndingWith(
                        "the time \"%s\" came twice, as clocks in %s went back; write %s%s for the first, %s%s for the second."
                                .formatted(time, zone, time, first, time, second));

        assertThat(file(time + first, zone).startedAt()).isEqualTo(OffsetDateTime.parse(time + first));
        assertThat(file(time + second, zone).startedAt()).isEqualTo(OffsetDateTime.parse(time + second));
    }

    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-03-29T02:30",
        "Europe/Berlin,    2027-03-28T02:00",
        "America/New_York, 2026-03-08T02:59",
        "America/New_York, 2027-03-14T02:30"
    })
    void aTimeThatNeverWasIsNotMoved(ZoneId zone, String time) throws IOException {
        assertThatThrownBy(() -> file(time, zone))
                .isInstanceOf(BadInput.class)
                .hasMessageEndingWith(
                        "the time \"%s\" never was, as clocks in %s went forward past it; correct it, or add its offset from UTC (%s%s)."
                                .formatted(time, zone, time, zone.getRules().getOffset(LocalDateTime.parse(time))));
    }

    @Test
    void timesBesideTheChangesAreReadAsBefore() throws IOException {
        ZoneId zone = ZoneId.of("Europe/Berlin");
        List<OffsetDateTime> read = new ArrayList<>();
        for (String time : List.of("2026-03-29T01:59", "2026-03-29T03:00", "2026-10-25T01:59", "2026-10-25T03:00")) {
            read.add(file(time, zone).startedAt());
        }
        assertThat(read)
                .containsExactly(
                        OffsetDateTime.parse("2026-03-29T01:59+01:00"),
                        OffsetDateTime.parse("2026-03-29T03:00+02:00"),
                        OffsetDateTime.parse("2026-10-25T01:59+02:00"),
                        OffsetDateTime.parse("2026-10-25T03:00+01:00"));
    }

    /** Should a country change its mind, the Java under the tests knows it first. */
    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin,    2026-01-01T00:00:00Z, 2026-03-29T01:00:00Z 2026-10-25T01:00:00Z 2027-03-28T01:00:00Z 2027-10-31T01:00:00Z",
        "America/New_York, 2026-01-01T00:00:00Z, 2026-03-08T07:00:00Z 2026-11-01T06:00:00Z 2027-03-14T07:00:00Z 2027-11-07T06:00:00Z"
    })
    void javaKnowsTheMomentsOfTheDatabase(ZoneId zone, Instant from, String moments) {
        List<String> known = new ArrayList<>();
        Instant at = from;
        while (known.size() < 4) {
            ZoneOffsetTransition next = zone.getRules().nextTransition(at);
            at = next.getInstant();
            known.add(at.toString());
        }
        assertThat(String.join(" ", known)).isEqualTo(moments);
    }
}
