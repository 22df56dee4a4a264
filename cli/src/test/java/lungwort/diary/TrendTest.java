package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.awt.Color;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Sites;
import lungwort.guidance.SlowChange;
import lungwort.guidance.TakeReason;
import lungwort.guidance.UsualFlow;
import lungwort.guidance.Vital;
import lungwort.guidance.Vitals;
import lungwort.round.Noise;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

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

        assertThat(trend(3).days()).containsExactly(day(0, 1, 95), day(1, 0, null), day(2, 1, null));
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

        assertThat(trend(1).days())
                .containsExactly(
                        new Day(MARCH_1, 2, null, null, 33.0, false, 91, null, null, null, null, null, 0, 0, true));
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

    private static Examination suggested(Examination e, Suggestion suggestion) {
        return new Examination(
                e.origin(),
                e.durationSeconds(),
                e.source(),
                suggestion,
                e.probabilities(),
                e.quality(),
                e.breathing(),
                e.evidence(),
                e.events(),
                e.pauses(),
                e.reasons(),
                e.model());
    }

    private void examined(Round round, String site, Examination examination) {
        Take take = diary.takes()
                .add(new NewTake(round.id(), Sites.of(site), TakeReason.FIRST, "a"), Examples.bytes(site + round.id()));
        diary.takes().examined(take.id(), examination);
    }

    /** A zero beside a suggested sound would read as if there were none: it is a gap. Where the sound was measured at another site, that number stands. */
    @Test
    void aSoundThatIsSuggestedAndNotMeasuredIsAGapAndNotAZero() {
        Round first = round("2026-03-01T07:00:00Z", Vitals.NONE);
        examined(first, "back-lower-left", suggested(Examples.examination(0, 0), Suggestion.DISCONTINUOUS));
        examined(first, "back-lower-right", Examples.examination(0, 0));
        Round second = round("2026-03-02T07:00:00Z", Vitals.NONE);
        examined(second, "back-lower-left", suggested(Examples.examination(0, 0), Suggestion.BOTH));
        examined(second, "back-lower-right", Examples.examination(2, 4));
        Round third = round("2026-03-03T07:00:00Z", Vitals.NONE);
        examined(third, "back-lower-left", Examples.examination(0, 0));

        assertThat(trend(3).days()).extracting(Day::cracklesPerBreath).containsExactly(null, 2.0, 0.0);
        assertThat(trend(3).days()).extracting(Day::wheezeShare).containsExactly(0.0, 0.125, 0.0);
    }

    /** Through a device unlike what was learnt from most can be missed: a line along zero would read as days without a sound. */
    @Test
    void nothingStandsOutIsAGapAndNotAZero() {
        Round first = round("2026-03-01T07:00:00Z", Vitals.NONE);
        examined(first, "back-lower-left", suggested(Examples.examination(0, 0), Suggestion.NONE_STANDS_OUT));
        Round second = round("2026-03-02T07:00:00Z", Vitals.NONE);
        examined(second, "back-lower-left", suggested(Examples.examination(0, 0), Suggestion.NONE_STANDS_OUT));
        examined(second, "back-lower-right", Examples.examination(2, 4));

        assertThat(trend(2).days()).extracting(Day::wheezeShare).containsExactly(null, 0.125);
        assertThat(trend(2).days()).extracting(Day::cracklesPerBreath).containsExactly(null, 2.0);
    }

    /** None heard in one take hides no sound of another one at the same place. */
    @Test
    void theTakeThatSuggestsASoundStandsForItsPlace() {
        Round round = round("2026-03-01T07:00:00Z", Vitals.NONE);
        take(round, "back-lower-left", TakeReason.FIRST, 0);
        clock.set("2026-03-01T07:05:00Z");
        take(round, "back-lower-left", TakeReason.FIRST, 2);
        clock.set("2026-03-01T07:06:00Z");
        take(round, "back-lower-left", TakeReason.AFTER_COUGH, 4);

        assertThat(trend(1).days()).extracting(Day::wheezeShare).containsExactly(0.125);
    }

    /** What an older Lungwort kept beside its examinations does not say what was suggested; it is read as it is. */
    @Test
    void numbersThatAnOlderLungwortKeptAreRead() {
        ObjectNode kept = Measured.toJson(suggested(Examples.examination(0, 0), Suggestion.DISCONTINUOUS));
        assertThat(Measured.of(UUID.randomUUID(), Sites.of("neck"), kept).cracklesPerBreath())
                .isNull();
        kept.remove(List.of("cracklesTold", "continuousTold"));
        assertThat(Measured.of(UUID.randomUUID(), Sites.of("neck"), kept).cracklesPerBreath())
                .as("kept before it was kept whether numbers are told")
                .isNull();
        kept.remove(List.of("cracklesNotMeasured", "continuousNotMeasured", "namesSound"));

        assertThat(Measured.of(UUID.randomUUID(), Sites.of("neck"), kept).cracklesPerBreath())
                .isEqualTo(0);
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

        assertThat(trend(4).usual(Trend.Measure.SPO2))
                .isEqualTo(new Trend.Usual(95, 94, 96, 3, true, MARCH_1, MARCH_1.plusDays(2)));
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

        assertThat(trend(4).usual(Trend.Measure.SPO2))
                .isEqualTo(new Trend.Usual(97, 97, 97, 3, true, MARCH_1, MARCH_1.plusDays(2)));
        assertThat(trend(6).usual(Trend.Measure.SPO2))
                .isEqualTo(new Trend.Usual(97, 97, 97, 3, true, MARCH_1, MARCH_1.plusDays(2)));
    }

    private static List<OwnUsual.Value> values(LocalDate first, double[] values, int wellDays) {
        List<OwnUsual.Value> days = new ArrayList<>();
        for (int i = 0; i < values.length; i++) {
            days.add(new OwnUsual.Value(first.plusDays(i), values[i], i >= wellDays));
        }
        return days;
    }

    /** What grows over days is not taken for usual: the days on which it asked for a clinician are left out where three others are known. */
    @Test
    void theUsualIsOfDaysThatAskedForNoClinician() {
        double[] falling = {97, 96, 97, 93, 92, 91};
        LocalDate day = MARCH_1.plusDays(6);

        Trend.Usual ofWell = Objects.requireNonNull(OwnUsual.of(Trend.Measure.SPO2, values(MARCH_1, falling, 3), day));
        assertThat(ofWell).isEqualTo(new Trend.Usual(97, 96, 97, 3, true, MARCH_1, MARCH_1.plusDays(2)));
        assertThat(ofWell.daysWords())
                .isEqualTo("3 days from 2026-03-01 to 2026-03-03, none of which asked for a clinician");
        assertThat(ofWell.daysBrief()).isEqualTo("3 days to 2026-03-03");
        Trend.Usual ofAll = Objects.requireNonNull(OwnUsual.of(Trend.Measure.SPO2, values(MARCH_1, falling, 2), day));
        assertThat(ofAll).isEqualTo(new Trend.Usual(94.5, 91, 97, 6, false, MARCH_1, MARCH_1.plusDays(5)));
        assertThat(ofAll.daysWords())
                .isEqualTo("6 days from 2026-03-01 to 2026-03-06, some of which asked for a clinician");
        assertThat(ofAll.daysBrief()).isEqualTo("6 days to 2026-03-06, some asked for a clinician");
        assertThat(OwnUsual.of(Trend.Measure.SPO2, values(MARCH_1, new double[] {97, 96}, 2), day))
                .isNull();
    }

    /** Forty days of illness stand between: the three well days before them are the usual still, until they are a year old. */
    @ParameterizedTest
    @EnumSource(Trend.Measure.class)
    void wellDaysBeforeALongIllnessStayTheUsual(Trend.Measure measure) {
        // An illness lowers the others, and raises the need of oxygen.
        double ill = measure == Trend.Measure.OXYGEN_FLOW ? 99 : 90;
        double[] all = new double[43];
        Arrays.fill(all, ill);
        Arrays.fill(all, 0, 3, 97);
        List<OwnUsual.Value> days = values(MARCH_1, all, 3);

        assertThat(OwnUsual.of(measure, days, MARCH_1.plusDays(43)))
                .isEqualTo(new Trend.Usual(97, 97, 97, 3, true, MARCH_1, MARCH_1.plusDays(2)));
        assertThat(OwnUsual.of(measure, days, MARCH_1.plusDays(OwnUsual.OLDEST_DAYS)))
                .isNotNull();
        assertThat(OwnUsual.of(measure, days, MARCH_1.plusDays(OwnUsual.OLDEST_DAYS + 1L)))
                .isNull();
        assertThat(OwnUsual.ofRecentDays(days, MARCH_1.plusDays(43)))
                .isEqualTo(new Trend.Usual(ill, ill, ill, 28, false, MARCH_1.plusDays(15), MARCH_1.plusDays(42)));
    }

    /** After a long illness three days at a lower number make no new usual of SpO2 at once. */
    @Test
    void aFewDaysAfterALongIllnessDoNotLowerTheUsual() {
        List<OwnUsual.Value> days = new ArrayList<>();
        for (int i = 0; i < 70; i++) {
            boolean ill = i >= 20 && i < 67;
            days.add(new OwnUsual.Value(MARCH_1.plusDays(i), i < 20 ? 98 : ill ? 93 : 96, ill));
        }

        assertThat(OwnUsual.of(Trend.Measure.SPO2, days, MARCH_1.plusDays(70)))
                .isEqualTo(new Trend.Usual(98, 96, 98, 23, true, MARCH_1, MARCH_1.plusDays(69)));
        assertThat(OwnUsual.of(Trend.Measure.RATE, days, MARCH_1.plusDays(70)))
                .isEqualTo(new Trend.Usual(96, 96, 96, 3, true, MARCH_1.plusDays(67), MARCH_1.plusDays(69)));
    }

    /** Left out are days, never alarms: whatever the days were, the usual SpO2 is no lower than that of all last days, and what lay outside all of them lies outside still. */
    @Test
    void leavingIllDaysOutTakesNoAlarmAway() {
        Random random = new Random(7);
        int left = 0;
        for (int round = 0; round < 2000; round++) {
            List<OwnUsual.Value> days = new ArrayList<>();
            for (int day = 0; day < 3 + round % 9; day++) {
                days.add(new OwnUsual.Value(MARCH_1.plusDays(day), 85 + random.nextInt(16), random.nextBoolean()));
            }
            LocalDate then = MARCH_1.plusDays(days.size());
            for (Trend.Measure measure : Trend.Measure.values()) {
                Trend.Usual now = Objects.requireNonNull(OwnUsual.of(measure, days, then));
                Trend.Usual before = Objects.requireNonNull(OwnUsual.ofRecentDays(days, then));
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
        assertThat(blown.measures()).contains(Trend.Measure.PEAK_FLOW).doesNotContain(Trend.Measure.WEIGHT);
        assertThat(notBlown.measures()).doesNotContain(Trend.Measure.PEAK_FLOW).hasSize(4);
        assertThat(TrendPicture.draw(blown, "Mia", m -> "", "").getHeight())
                .isGreaterThan(TrendPicture.draw(notBlown, "Mia", m -> "", "").getHeight());
    }

    /** The heaviest of a day counts, as water comes within one. A weight within earlier ones is no good news, so that it has no usual: it is told and not judged. */
    @Test
    void theWeightIsFollowedAndHasNoUsual() {
        round("2026-03-01T07:00:00Z", Vitals.NONE.withWeight(70.0));
        round("2026-03-01T19:00:00Z", Vitals.NONE.withWeight(71.2));
        round("2026-03-02T07:00:00Z", Vitals.NONE.withWeight(69.4));
        round("2026-03-03T07:00:00Z", Vitals.NONE.withSpo2(97));
        round("2026-03-04T07:00:00Z", Vitals.NONE.withWeight(70.6));

        Trend weighed = trend(5);
        assertThat(weighed.days()).extracting(Day::weightKg).containsExactly(71.2, 69.4, null, 70.6, null);
        assertThat(weighed.measures()).contains(Trend.Measure.WEIGHT).doesNotContain(Trend.Measure.PEAK_FLOW);
        assertThat(weighed.usual(Trend.Measure.WEIGHT)).isNull();
        assertThat(weighed.usualOfLastDays(Trend.Measure.WEIGHT)).isNull();
        assertThat(weighed.toldWords(Trend.Measure.WEIGHT))
                .isEqualTo(
                        "70.6 kg on 2026-03-04; lowest 69.4 kg on 2026-03-02, highest 71.2 kg on 2026-03-01. Told here, not judged: show it to the clinician.");

        Trend alone = Trend.of(diary, mia.id(), MARCH_1.plusDays(2), MARCH_1.plusDays(3));
        assertThat(alone.toldWords(Trend.Measure.WEIGHT)).isEmpty();
        Trend none = Trend.of(diary, mia.id(), MARCH_1.plusDays(2), MARCH_1.plusDays(2));
        assertThat(none.measures()).hasSize(4);
        assertThat(TrendPicture.draw(alone, "Mia", m -> "", "").getHeight())
                .isGreaterThan(TrendPicture.draw(none, "Mia", m -> "", "").getHeight());
    }

    /** Beside each panel's name stands what chance alone can make: it must not run over the right margin. */
    @Test
    void noWordsOfThePictureRunOverItsMargin() {
        round(
                "2026-03-01T07:00:00Z",
                Vitals.NONE
                        .withSpo2(93)
                        .withOnOxygen(true)
                        .withOxygenFlow(2.0)
                        .withPeakFlow(300)
                        .withWeight(70.0));
        Trend all = trend(1);
        assertThat(all.measures()).containsExactly(Trend.Measure.values());

        BufferedImage picture = TrendPicture.draw(all, "Mia", Noise::words, Noise.CAUTION);

        int[] margin = picture.getRGB(picture.getWidth() - 20, 0, 20, picture.getHeight(), null, 0, 20);
        assertThat(margin).containsOnly(java.awt.Color.WHITE.getRGB());
    }

    @Test
    void thePictureBreaksItsLineAtAGap() {
        List<Day> joined = new ArrayList<>();
        List<Day> broken = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            Day day = new Day(
                    MARCH_1.plusDays(i), 1, 0.2, 1.0, 30.0, false, 95, null, null, null, null, null, 0, 0, false);
            joined.add(day);
            broken.add(i == 1 ? day(1, 0, null) : day);
        }

        int inkOfJoined = ink(TrendPicture.draw(
                new Trend(MARCH_1, MARCH_1.plusDays(2), joined, Map.of(), Map.of(), List.of(), null),
                "Mia",
                m -> "",
                ""));
        int inkOfBroken = ink(TrendPicture.draw(
                new Trend(MARCH_1, MARCH_1.plusDays(2), broken, Map.of(), Map.of(), List.of(), null),
                "Mia",
                m -> "",
                ""));

        // Four panels, each with a line of about 590 px, 2 px thick, less.
        assertThat(inkOfJoined - inkOfBroken).isGreaterThan(4 * 2 * 500);
    }

    /** SpO2 within its band, but on more oxygen than on the days that made the band: common practice [C]. */
    @Test
    void thePictureTellsThatTheNewestSpo2IsOfAnotherFlow() {
        Day more = new Day(MARCH_1, 1, null, null, null, false, 96, true, null, null, 3.0, 3.0, 0, 0, false);
        Day same = new Day(MARCH_1, 1, null, null, null, false, 96, true, null, null, 2.0, 2.0, 0, 0, false);
        UsualFlow before = new UsualFlow(2, 96, "of 3 days");

        assertThat(TrendPicture.below(
                        new Trend(MARCH_1, MARCH_1, List.of(more), Map.of(), Map.of(), List.of(), before), ""))
                .contains("SpO2 of the newest day: measured on more oxygen than before: 3 l/min now, 2 l/min before.");
        assertThat(TrendPicture.below(
                        new Trend(MARCH_1, MARCH_1, List.of(same), Map.of(), Map.of(), List.of(), before), ""))
                .noneMatch(line -> line.contains("newest day"));
    }

    /** What no panel shows stands under them in words: a usual that moved little by little, and that a mean can fall while a sound spreads. */
    @Test
    void thePictureTellsOfASlowChangeAndOfMeans() {
        Day day = new Day(MARCH_1, 1, 0.1, null, null, false, null, null, null, null, null, null, 0, 0, false);
        SlowChange fell =
                new SlowChange(Vital.SPO2, "", 97, "in March 2025", 93, "12 days from 2026-02-01 to 2026-02-28");
        Trend still = new Trend(MARCH_1, MARCH_1, List.of(day), Map.of(), Map.of(), List.of(), null);
        Trend moved = new Trend(MARCH_1, MARCH_1, List.of(day), Map.of(), Map.of(), List.of(fell), null);

        assertThat(String.join(" ", TrendPicture.below(moved, "Caution.")))
                .startsWith("OVER MONTHS: " + fell.words())
                .contains("Caution.", "A lower wheeze share can be a worse chest.");
        assertThat(TrendPicture.below(moved, Noise.CAUTION))
                .hasSizeGreaterThan(4)
                .allSatisfy(line -> assertThat(line).hasSizeLessThan(160));
        assertThat(String.join(" ", TrendPicture.below(still, Noise.CAUTION)))
                .doesNotContain("OVER MONTHS")
                .contains("it can fall while the sound spreads to more places");
        assertThat(TrendPicture.draw(moved, "Mia", m -> "", "").getHeight())
                .isGreaterThan(TrendPicture.draw(still, "Mia", m -> "", "").getHeight());
    }

    /** Days that make the usual can lie far back, and far from what is drawn: their band is drawn all the same, and inside its panel. */
    @Test
    void thePictureHasRoomForAUsualFarFromTheDaysDrawn() {
        Day day = new Day(MARCH_1, 1, 0.1, null, null, false, null, null, null, null, null, null, 0, 0, false);
        Trend.Usual usual = new Trend.Usual(85, 80, 90, 3, true, MARCH_1.minusDays(90), MARCH_1.minusDays(80));
        BufferedImage without = TrendPicture.draw(
                new Trend(MARCH_1, MARCH_1, List.of(day), Map.of(), Map.of(), List.of(), null), "Mia", m -> "", "");
        BufferedImage with = TrendPicture.draw(
                new Trend(
                        MARCH_1,
                        MARCH_1,
                        List.of(day),
                        Map.of(Trend.Measure.WHEEZE_SHARE, usual),
                        Map.of(),
                        List.of(),
                        null),
                "Mia",
                m -> "",
                "");

        assertThat(band(without)).isEmpty();
        // The first panel lies between 74 and 246; ten of a hundred percent are more than a tenth of its height.
        assertThat(band(with)).allMatch(y -> y >= 74 && y <= 246).hasSizeGreaterThan(15);
    }

    /** Rows in whose middle, between day and frame, the band of a usual is drawn. */
    private static List<Integer> band(BufferedImage image) {
        List<Integer> rows = new ArrayList<>();
        for (int y = 0; y < image.getHeight(); y++) {
            Color c = new Color(image.getRGB(300, y));
            if (c.getBlue() > c.getRed() + 15 && c.getBlue() < c.getRed() + 60) {
                rows.add(y);
            }
        }
        return rows;
    }

    /** A day of so many rounds that asked for no clinician, on which nothing but perhaps SpO2 is known. */
    private static Day day(int daysAfterMarch1, int rounds, @Nullable Integer spo2Percent) {
        return new Day(
                MARCH_1.plusDays(daysAfterMarch1),
                rounds,
                null,
                null,
                null,
                false,
                spo2Percent,
                null,
                null,
                null,
                null,
                null,
                0,
                0,
                false);
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
