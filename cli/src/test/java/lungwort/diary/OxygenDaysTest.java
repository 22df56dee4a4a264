package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.UUID;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.EarlierWeight;
import lungwort.guidance.RateSource;
import lungwort.guidance.UsualFlow;
import lungwort.guidance.UsualRate;
import lungwort.guidance.UsualSpo2;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Days in air and on extra oxygen. Oxygen lifts the number; to need it newly, or to fall by 3 % from the usual of the same kind, is to be assessed. Common practice [C]. */
class OxygenDaysTest {
    private static final LocalDate MARCH_1 = LocalDate.of(2026, 3, 1);

    /** A child: nothing from 92 % on asks for a clinician by itself. */
    private static final Person MIA =
            new Person(UUID.randomUUID(), "Mia", YearMonth.of(2018, 4), Conditions.NONE, "", ClinicianLimits.NONE);

    private final List<Round> rounds = new ArrayList<>();
    private LocalDate day = MARCH_1;

    private void days(int days, int spo2, @Nullable Boolean onOxygen) {
        for (int i = 0; i < days; i++) {
            round(spo2, onOxygen, 8);
            day = day.plusDays(1);
        }
    }

    private void round(@Nullable Integer spo2, @Nullable Boolean onOxygen, int hour) {
        rounds.add(Round.begin(MIA.id(), day.atTime(hour, 0).atOffset(ZoneOffset.UTC))
                .with(Vitals.NONE.withSpo2(spo2).withOnOxygen(onOxygen)));
    }

    private EarlierDays earlier() {
        return earlier(MIA);
    }

    private EarlierDays earlier(Person person) {
        return OxygenDays.before(day, person, rounds).earlier(day);
    }

    private Round weighed(LocalDate on, int hour, double kg) {
        return Round.begin(MIA.id(), on.atTime(hour, 0).atOffset(ZoneOffset.UTC))
                .with(Vitals.NONE.withWeight(kg));
    }

    /** European Society of Cardiology, guide for patients [P]: in 3 days. Rounds of the same day count, later ones never, and of older ones the newest, which a number far from it is held against. */
    @Test
    void theWeightsOfTheLastThreeDaysAndTheNewestBeforeThemAreKnown() {
        for (int back : new int[] {500, 40, 5, 4, 3, 1}) {
            rounds.add(weighed(MARCH_1.minusDays(back), 7, 70 + back / 100.0));
        }
        rounds.add(weighed(MARCH_1, 6, 71));
        Round now = weighed(MARCH_1, 8, 72);
        rounds.add(now);
        rounds.add(weighed(MARCH_1, 19, 73));
        rounds.add(weighed(MARCH_1.plusDays(1), 7, 74));
        Collections.shuffle(rounds, new Random(1));

        for (EarlierDays earlier : List.of(
                OxygenDays.before(MARCH_1, MIA, rounds).earlier(now),
                OxygenDays.of(MIA, rounds).earlierOn(now))) {
            assertThat(earlier.weights()).extracting(EarlierWeight::daysBefore).containsExactly(4, 3, 1, 0);
            assertThat(earlier.weights()).extracting(EarlierWeight::kg).last().isEqualTo(71.0);
        }
        Round late = weighed(MARCH_1.plusDays(400), 7, 74);
        assertThat(OxygenDays.before(late.day(), MIA, rounds).earlier(late).weights())
                .isEmpty();
    }

    private void flows(int days, double litres, @Nullable Integer spo2) {
        for (int i = 0; i < days; i++) {
            rounds.add(Round.begin(MIA.id(), day.atTime(8, 0).atOffset(ZoneOffset.UTC))
                    .with(Vitals.NONE.withSpo2(spo2).withOnOxygen(true).withOxygenFlow(litres)));
            day = day.plusDays(1);
        }
    }

    /** Common practice [C]: a flow that rose makes no usual, however long, for its days ask for a clinician; until one states the usual SpO2 on oxygen. */
    @Test
    void aFlowIsHeldAgainstDaysThatAskedForNoClinicianUntilOneStatesAUsualOnOxygen() {
        assertThat(earlier().usualFlow()).isNull();
        flows(1, 2, 95);
        assertThat(earlier().usualFlow())
                .isEqualTo(new UsualFlow(2, 95, "on 2026-03-01, which asked for no clinician"));
        flows(4, 2, 96);
        assertThat(earlier().usualFlow())
                .isEqualTo(new UsualFlow(
                        2, 96, "of 5 days from 2026-03-01 to 2026-03-05, none of which asked for a clinician"));
        flows(40, 3, 96);
        assertThat(earlier().usualFlow()).extracting(UsualFlow::litresPerMinute).isEqualTo(2.0);
        assertThat(OxygenDays.before(day, MIA, rounds).askedForClinician()).hasSize(40);

        Person stated = stated(new StatedUsual(96, day.minusDays(3), true, "Dr Invented", ""));
        assertThat(earlier(stated).usualFlow())
                .extracting(UsualFlow::litresPerMinute)
                .isEqualTo(3.0);
        Person inAir = stated(new StatedUsual(96, day.minusDays(3), null, "Dr Invented", ""));
        assertThat(earlier(inAir).usualFlow())
                .extracting(UsualFlow::litresPerMinute)
                .isEqualTo(2.0);
    }

    /** Weaned from 3 to 2: to need 3 again is told, though 3 is still the middle of the month; one day on less is not. */
    @Test
    void theNewestDaysCountWhereTheyAreLower() {
        flows(20, 3, 96);
        flows(1, 2, 96);
        flows(1, 3, 96);
        assertThat(earlier().usualFlow()).extracting(UsualFlow::litresPerMinute).isEqualTo(3.0);
        flows(3, 2, 96);
        assertThat(earlier().usualFlow())
                .isEqualTo(new UsualFlow(
                        2, 96, "the highest of 3 days from 2026-03-23 to 2026-03-25, which asked for no clinician"));
        rounds.add(Round.begin(MIA.id(), day.atTime(8, 0).atOffset(ZoneOffset.UTC))
                .with(Vitals.NONE.withSpo2(96).withOnOxygen(true)));
        assertThat(earlier().usualFlow()).extracting(UsualFlow::litresPerMinute).isEqualTo(2.0);
    }

    /** With a higher SpO2 a risen flow asks no clinician to see the person; when SpO2 falls back, the flow is still a risen one. */
    @Test
    void aFlowThatRoseWithAHigherSpo2MakesNoUsualEither() {
        flows(1, 2, 93);
        flows(3, 4, 96);

        assertThat(OxygenDays.before(day, MIA, rounds).askedForClinician()).isEmpty();
        assertThat(earlier().usualFlow())
                .isEqualTo(new UsualFlow(2, 93, "on 2026-03-01, which asked for no clinician"));
    }

    /** Half a percent that is cut would make a gain of 3 % out of one of 2.5 %, and of two equal flows the one with the lower SpO2 would, too. */
    @Test
    void theSpo2OnAFlowIsNeverTakenLowerThanItWas() {
        flows(3, 2, 93);
        flows(2, 2, 94);
        flows(1, 2.2, 94);
        assertThat(earlier().usualFlow())
                .as("the middle is 93.5")
                .isEqualTo(new UsualFlow(
                        2, 94, "of 6 days from 2026-03-01 to 2026-03-06, none of which asked for a clinician"));
        flows(9, 2, 93);
        flows(3, 2, 95);
        assertThat(earlier().usualFlow())
                .isEqualTo(new UsualFlow(
                        2, 95, "the highest of 3 days from 2026-03-16 to 2026-03-18, which asked for no clinician"));
    }

    private static Person stated(StatedUsual usual) {
        return new Person(
                MIA.id(), "Mia", YearMonth.of(2018, 4), Conditions.NONE, "", ClinicianLimits.NONE.withUsualSpo2(usual));
    }

    /** A day that only the scale calls ill makes the usual it would have made without one, and it is said that it asked. */
    @Test
    void aWeightThatRoseTakesNoDayFromTheUsual() {
        Person heart = new Person(
                MIA.id(),
                "Pa",
                YearMonth.of(1948, 5),
                Conditions.of(Condition.HEART_FAILURE),
                "",
                ClinicianLimits.NONE);
        List<Round> unweighed = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            Round plain = Round.begin(MIA.id(), MARCH_1.plusDays(i).atTime(8, 0).atOffset(ZoneOffset.UTC))
                    .with(Vitals.NONE.withSpo2(i < 3 ? 95 : 98).withOnOxygen(false));
            unweighed.add(plain);
            rounds.add(plain.with(plain.vitals().withWeight(70 + 2.5 * Math.max(0, i - 2))));
        }
        LocalDate next = MARCH_1.plusDays(6);
        OxygenDays with = OxygenDays.before(next, heart, rounds);
        OxygenDays without = OxygenDays.before(next, heart, unweighed);

        assertThat(without.askedForClinician()).isEmpty();
        assertThat(with.askedForClinician())
                .containsExactlyInAnyOrder(MARCH_1.plusDays(3), MARCH_1.plusDays(4), MARCH_1.plusDays(5));
        assertThat(percent(with.earlier(next).usualInAir()))
                .isEqualTo(percent(without.earlier(next).usualInAir()))
                .isEqualTo(96);
        assertThat(Objects.requireNonNull(with.earlier(next).usualInAir()).of())
                .contains("some of which asked for a clinician");
        assertThat(Objects.requireNonNull(without.earlier(next).usualInAir()).of())
                .contains("none of which asked");
    }

    private static @Nullable Integer percent(@Nullable UsualSpo2 usual) {
        return usual == null ? null : (Integer) usual.percent();
    }

    private static Person stating(int percent, LocalDate on, @Nullable Boolean onOxygen) {
        return MIA.withLimits(
                ClinicianLimits.NONE.withUsualSpo2(new StatedUsual(percent, on, onOxygen, "Dr A. Example", "")));
    }

    @Test
    void valuesOnOxygenLiftNoFallInAirAway() {
        days(10, 93, true);
        days(4, 97, false);

        assertThat(percent(earlier().usualInAir()))
                .as("the ten days at 93 % on oxygen pull nothing down")
                .isEqualTo(97);
        assertThat(earlier().usualInAir())
                .isEqualTo(new UsualSpo2(
                        97, "of 4 days in air from 2026-03-11 to 2026-03-14, none of which asked for a clinician"));
        assertThat(percent(earlier().usualOnOxygen()))
                .as("oxygen only lifts: what is usual in air is the least on it")
                .isEqualTo(97);
        assertThat(percent(earlier().usualNotSaid())).isEqualTo(97);
    }

    /** No step becomes milder by keeping kinds apart: in air a value is still held against the usual of all days where that is higher, and both numbers are told. */
    @Test
    void aUsualOfAllDaysThatIsHigherStillCounts() {
        days(12, 97, true);
        days(4, 93, false);

        assertThat(earlier().usualInAir())
                .isEqualTo(
                        new UsualSpo2(
                                97,
                                "of 12 days on oxygen from 2026-03-01 to 2026-03-12, none of which asked for a clinician; of days in air alone it is 93 %"));
        assertThat(percent(earlier(stating(93, day, false)).usualInAir()))
                .as("until a clinician has stated the usual in air")
                .isEqualTo(93);
        assertThat(percent(earlier(stating(93, day, false)).usualOnOxygen()))
                .as("which says nothing of values on oxygen")
                .isEqualTo(97);
    }

    @Test
    void whereNobodySaysHowNothingIsKeptApart() {
        days(4, 96, null);

        UsualSpo2 usual =
                new UsualSpo2(96, "of 4 days from 2026-03-01 to 2026-03-04, none of which asked for a clinician");
        assertThat(earlier()).isEqualTo(new EarlierDays(usual, usual, usual, true, List.of()));
    }

    private void rate(int perMinute, RateSource source, boolean asleep, @Nullable Integer spo2) {
        rounds.add(Round.begin(MIA.id(), day.atTime(8, 0).atOffset(ZoneOffset.UTC))
                .with(Vitals.NONE
                        .withRespiratoryRate(perMinute, source)
                        .withAsleep(asleep)
                        .withSpo2(spo2)));
        day = day.plusDays(1);
    }

    /** Of counts awake, of days that asked for no clinician: 85 % would. */
    @Test
    void theUsualRateIsTheMiddleOfWhatWasCountedAwakeOnWellDays() {
        rate(20, RateSource.COUNTED, false, null);
        rate(24, RateSource.COUNTED, false, null);
        rate(40, RateSource.HEARD, false, null);
        rate(12, RateSource.COUNTED, true, null);
        assertThat(earlier().usualRate()).as("two days are too few").isNull();
        rate(38, RateSource.COUNTED, false, 85);
        rate(21, RateSource.COUNTED, false, null);

        assertThat(earlier().usualRate())
                .isEqualTo(new UsualRate(
                        21, "of 3 days from 2026-03-01 to 2026-03-06, none of which asked for a clinician"));
    }

    /** The reading that tells the change: a value of which nobody said how it was measured counts as one without oxygen. */
    @ParameterizedTest
    @CsvSource(
            nullValues = "?",
            value = {"false, 3, true", "?, 3, true", "false, 2, false", "true, 3, false"})
    void oxygenIsNewAfterThreeDaysWithoutIt(@Nullable Boolean before, int days, boolean isNew) {
        days(days, 96, before);

        assertThat(earlier().withoutOxygen()).isEqualTo(isNew);
    }

    @Test
    void oxygenStaysNewHoweverLongTheIllnessLasts() {
        days(5, 96, false);
        days(60, 96, true);

        assertThat(earlier().withoutOxygen()).isTrue();
        assertThat(OxygenDays.before(day, MIA, rounds).askedForClinician())
                .as("each of them asked for a clinician")
                .hasSize(60);
    }

    @Test
    void whoeverBeganOnOxygenIsUsedToIt() {
        days(3, 96, true);
        days(20, 96, false);
        days(1, 96, true);

        assertThat(earlier().withoutOxygen()).isFalse();
        assertThat(OxygenDays.before(day, MIA, rounds).askedForClinician()).isEmpty();
    }

    /** Only a usual on oxygen accepts the oxygen: one of which nobody said how it was measured may be of air. */
    @ParameterizedTest
    @CsvSource(
            nullValues = "?",
            value = {"true, false", "false, true", "?, true"})
    void oxygenIsUsualOnceAClinicianHasStatedAUsualOnIt(@Nullable Boolean stated, boolean stillNew) {
        days(5, 96, false);
        days(5, 96, true);

        assertThat(earlier(stating(96, day, stated)).withoutOxygen()).isEqualTo(stillNew);
        assertThat(earlier(stating(96, day.plusDays(1), stated)).withoutOxygen())
                .as("on the day before it counts")
                .isTrue();
    }

    @Test
    void ofADayWithBothEachKindHasItsLowest() {
        for (int i = 0; i < 3; i++) {
            round(93, false, 8);
            round(97, true, 12);
            round(98, true, 16);
            round(null, true, 20);
            day = day.plusDays(1);
        }

        OxygenDays days = OxygenDays.before(day, MIA, rounds);
        assertThat(days.ofDays(day, true))
                .extracting(u -> u.median(), u -> u.how())
                .containsExactly(97.0, "on oxygen");
        assertThat(percent(days.earlier(day).usualInAir())).isEqualTo(93);
    }
}
