package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import lungwort.BadInput;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TrendTest {
    private static final LocalDate MARCH_1 = LocalDate.of(2026, 3, 1);

    @TempDir
    Path temp;

    private final Examples.MovingClock clock = new Examples.MovingClock();
    private Diary diary;
    private Person mia;

    @BeforeEach
    void begin() {
        diary = Diary.open(temp.resolve("diary"), clock);
        mia = Examples.person(diary, "Mia");
    }

    @AfterEach
    void close() {
        diary.close();
    }

    private Round round(String when, Vitals vitals) {
        clock.set(when);
        Round round = diary.rounds().start(mia.id()).with(vitals);
        diary.rounds().change(round);
        return round;
    }

    private void take(Round round, String site, TakeReason reason, int wheezes) {
        Take take = diary.takes()
                .add(
                        new NewTake(round.id(), Sites.of(site), reason, "a"),
                        Examples.bytes(site + reason + wheezes + round.id()));
        diary.takes().examined(take.id(), Examples.examination(wheezes, 0));
    }

    private Trend trend(int days) {
        return Trend.of(diary, mia.id(), MARCH_1, MARCH_1.plusDays(days - 1L));
    }

    @Test
    void aDayWithoutARoundIsAGapAndNotAZero() {
        round("2026-03-01T07:00:00Z", Vitals.NONE.withSpo2(95));
        round("2026-03-03T07:00:00Z", Vitals.NONE);

        assertThat(trend(3).days())
                .containsExactly(
                        new Day(MARCH_1, 1, null, null, null, false, 95, null, false),
                        new Day(MARCH_1.plusDays(1), 0, null, null, null, false, null, null, false),
                        new Day(MARCH_1.plusDays(2), 1, null, null, null, false, null, null, false));
    }

    @Test
    void aRoundLateInTheEveningBelongsToItsLocalDay() {
        // 23:30 on 1 March one hour east of Greenwich.
        round("2026-03-01T22:30:00Z", Vitals.NONE.withSpo2(95));
        // 00:30 on 2 March there, still 1 March in Greenwich.
        round("2026-03-01T23:30:00Z", Vitals.NONE.withSpo2(93));

        assertThat(trend(2).days()).extracting(Day::spo2Percent).containsExactly(95, 93);
    }

    @Test
    void ofSeveralRoundsTheWorstVitalsOfTheDayAreShown() {
        round("2026-03-01T07:00:00Z", Vitals.NONE.withSpo2(95).withRespiratoryRate(24));
        round("2026-03-01T17:00:00Z", Vitals.NONE.withSpo2(91).withRespiratoryRate(33));

        assertThat(trend(1).days()).containsExactly(new Day(MARCH_1, 2, null, null, 33.0, false, 91, null, false));
    }

    @Test
    void soundsAreTheMeanOverSitesOfTheFirstJudgedTake() {
        Round round = round("2026-03-01T07:00:00Z", Vitals.NONE);
        take(round, "back-lower-left", TakeReason.FIRST, 4);
        take(round, "back-lower-left", TakeReason.AFTER_COUGH, 0);
        take(round, "back-lower-right", TakeReason.FIRST, 0);

        Day day = trend(1).days().get(0);

        // 2 s of wheeze in 8 s of breaths on the left, none on the right.
        assertThat(day.wheezeShare()).isCloseTo(0.125, within(1e-12));
        assertThat(day.ratePerMinute()).isEqualTo(15);
        assertThat(day.rateHeard()).isTrue();
    }

    @Test
    void aCountedRateOutranksAHeardOne() {
        Round round = round("2026-03-01T07:00:00Z", Vitals.NONE.withRespiratoryRate(28));
        take(round, "neck", TakeReason.FIRST, 0);

        assertThat(trend(1).days().get(0).ratePerMinute()).isEqualTo(28);
        assertThat(trend(1).days().get(0).rateHeard()).isFalse();
    }

    @Test
    void theUsualIsOfEarlierDaysOnlyAndNeedsThree() {
        for (int day = 1; day <= 3; day++) {
            round("2026-03-0%dT07:00:00Z".formatted(day), Vitals.NONE.withSpo2(93 + day));
        }
        assertThat(trend(3).usual(Trend.Measure.SPO2)).isNull();

        round("2026-03-04T07:00:00Z", Vitals.NONE.withSpo2(80));

        assertThat(trend(4).usual(Trend.Measure.SPO2)).isEqualTo(new Trend.Usual(95, 94, 96, 3, true));
        assertThat(trend(4).usual(Trend.Measure.RATE)).isNull();
    }

    @Test
    void aSpanThatIsBackwardsOrEndlessIsASentence() {
        assertThatThrownBy(() -> Trend.of(diary, mia.id(), MARCH_1, MARCH_1.minusDays(1)))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("choose 1 to 3700 days");
        assertThatThrownBy(() -> Trend.of(diary, mia.id(), LocalDate.MIN, MARCH_1))
                .isInstanceOf(BadInput.class);
    }

    /** Looked at a day later, a fall on the newest day still stands outside what was usual before it. */
    @Test
    void theNewestRoundIsNeverPartOfItsOwnUsual() {
        for (int day = 1; day <= 3; day++) {
            round("2026-03-0%dT07:00:00Z".formatted(day), Vitals.NONE.withSpo2(97));
        }
        round("2026-03-04T07:00:00Z", Vitals.NONE.withSpo2(92));

        assertThat(trend(4).usual(Trend.Measure.SPO2)).isEqualTo(new Trend.Usual(97, 97, 97, 3, true));
        assertThat(trend(6).usual(Trend.Measure.SPO2)).isEqualTo(new Trend.Usual(97, 97, 97, 3, true));
    }

    /** What grows over days is not taken for usual: the days on which it asked for a clinician are left out where three others are known. */
    @Test
    void theUsualIsOfDaysThatAskedForNoClinician() {
        List<Double> all = List.of(97.0, 96.0, 97.0, 93.0, 92.0, 91.0);
        Trend.Usual ofWell = Objects.requireNonNull(Trend.Usual.of(Trend.Measure.SPO2, all.subList(0, 3), all));

        assertThat(ofWell).isEqualTo(new Trend.Usual(97, 96, 97, 3, true));
        assertThat(ofWell.daysWords()).isEqualTo("3 days");
        Trend.Usual ofAll = Objects.requireNonNull(Trend.Usual.of(Trend.Measure.SPO2, all.subList(0, 2), all));
        assertThat(ofAll).isEqualTo(new Trend.Usual(94.5, 91, 97, 6, false));
        assertThat(ofAll.daysWords()).isEqualTo("6 days, some of which asked for a clinician");
        assertThat(Trend.Usual.of(Trend.Measure.SPO2, all.subList(0, 2), all.subList(0, 2)))
                .isNull();
    }

    /** Left out are days, never alarms: whatever the days were, the usual SpO2 is no lower than that of all days, and what lay outside all days lies outside still. */
    @Test
    void leavingIllDaysOutTakesNoAlarmAway() {
        Random random = new Random(7);
        int left = 0;
        for (int round = 0; round < 2000; round++) {
            List<Double> all = new ArrayList<>();
            List<Double> well = new ArrayList<>();
            for (int day = 3 + random.nextInt(9); day > 0; day--) {
                double value = 85 + random.nextInt(16);
                all.add(value);
                if (random.nextBoolean()) {
                    well.add(value);
                }
            }
            for (Trend.Measure measure : Trend.Measure.values()) {
                Trend.Usual now = Objects.requireNonNull(Trend.Usual.of(measure, well, all));
                Trend.Usual before = Objects.requireNonNull(Trend.Usual.of(measure, all, all));
                assertThat(now.lowest()).isGreaterThanOrEqualTo(before.lowest());
                assertThat(now.highest()).isLessThanOrEqualTo(before.highest());
                if (measure == Trend.Measure.SPO2) {
                    assertThat(now.median()).isGreaterThanOrEqualTo(before.median());
                    left += now.days() < before.days() ? 1 : 0;
                }
            }
        }
        assertThat(left).isPositive();
    }

    /** In asthma the peak flow is the number that falls first (BTS/SIGN go by its share of the best); the worst of a day counts. Who never blew into a meter is shown no empty column. */
    @Test
    void thePeakFlowIsFollowedWhereItWasMeasured() {
        round("2026-03-01T07:00:00Z", Vitals.NONE.withPeakFlow(500));
        round("2026-03-01T19:00:00Z", Vitals.NONE.withPeakFlow(430));
        round("2026-03-02T07:00:00Z", Vitals.NONE.withSpo2(97));

        Trend blown = trend(2);
        Trend notBlown = Trend.of(diary, mia.id(), MARCH_1.plusDays(1), MARCH_1.plusDays(1));

        assertThat(blown.days()).extracting(Day::peakFlowLitresPerMinute).containsExactly(430, null);
        assertThat(blown.measures()).containsExactly(Trend.Measure.values());
        assertThat(notBlown.measures()).doesNotContain(Trend.Measure.PEAK_FLOW).hasSize(4);
        assertThat(TrendPicture.draw(blown, "Mia", m -> "", "").getHeight())
                .isGreaterThan(TrendPicture.draw(notBlown, "Mia", m -> "", "").getHeight());
    }

    @Test
    void thePictureBreaksItsLineAtAGap() {
        List<Day> joined = new ArrayList<>();
        List<Day> broken = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            Day day = new Day(MARCH_1.plusDays(i), 1, 0.2, 1.0, 30.0, false, 95, null, false);
            joined.add(day);
            broken.add(i == 1 ? new Day(MARCH_1.plusDays(1), 0, null, null, null, false, null, null, false) : day);
        }

        int inkOfJoined = ink(TrendPicture.draw(new Trend(MARCH_1, MARCH_1.plusDays(2), joined), "Mia", m -> "", ""));
        int inkOfBroken = ink(TrendPicture.draw(new Trend(MARCH_1, MARCH_1.plusDays(2), broken), "Mia", m -> "", ""));

        // Four panels, each with a line of about 590 px, 2 px thick, less.
        assertThat(inkOfJoined - inkOfBroken).isGreaterThan(4 * 2 * 500);
    }

    private static int ink(BufferedImage image) {
        int count = 0;
        for (int x = 0; x < image.getWidth(); x++) {
            for (int y = 0; y < image.getHeight(); y++) {
                Color c = new Color(image.getRGB(x, y));
                count += c.getBlue() > c.getRed() + 60 ? 1 : 0;
            }
        }
        return count;
    }
}
