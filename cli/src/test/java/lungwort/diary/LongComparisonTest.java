package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Conditions;
import lungwort.guidance.RateSource;
import lungwort.guidance.SlowChange;
import lungwort.guidance.Vital;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What moves by 1 % in two months stands out on no day. That it is told once it comes to the 3 % that count from one day to the next is common practice [C]. */
class LongComparisonTest {
    private static final LocalDate JANUARY_1 = LocalDate.of(2026, 1, 1);

    /** A child: nothing from 92 % on asks for a clinician by itself. */
    private static final Person MIA =
            new Person(UUID.randomUUID(), "Mia", YearMonth.of(2016, 4), Conditions.NONE, "", ClinicianLimits.NONE);

    private final List<Round> rounds = new ArrayList<>();
    private LocalDate day = JANUARY_1;

    private void measure(Vitals vitals, int daysUntilNext) {
        rounds.add(
                Round.begin(MIA.id(), day.atTime(8, 0).atOffset(ZoneOffset.UTC)).with(vitals));
        day = day.plusDays(daysUntilNext);
    }

    private void until(LocalDate end, int spo2, int everyDays) {
        while (day.isBefore(end)) {
            measure(Vitals.NONE.withSpo2(spo2), everyDays);
        }
    }

    private OxygenDays days(Person person) {
        return OxygenDays.before(day, person, rounds);
    }

    private List<SlowChange> told(Person person) {
        return days(person).earlier(day).slowChanges();
    }

    private static Person stating(int percent, LocalDate on, @Nullable Boolean onOxygen) {
        return MIA.withLimits(
                ClinicianLimits.NONE.withUsualSpo2(new StatedUsual(percent, on, onOxygen, "Dr A. Example", "")));
    }

    private void slowFall(int everyDays) {
        for (int month = 0; month < 8; month++) {
            until(JANUARY_1.plusMonths(month + 1), 97 - month / 2, everyDays);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 4, 7, 14})
    void aFallOfOnePercentInTwoMonthsIsToldThoughNoDayStandsOut(int everyDays) {
        slowFall(everyDays);

        assertThat(days(MIA).askedForClinician()).isEmpty();
        assertThat(told(MIA))
                .singleElement()
                .satisfies(c -> assertThat(c.then()).isEqualTo(97))
                .satisfies(c -> assertThat(c.now()).isEqualTo(94));
    }

    @Test
    void itIsToldInWordsWithItsMonths() {
        slowFall(1);

        assertThat(told(MIA))
                .extracting(SlowChange::words)
                .containsExactly(
                        "The usual SpO2 was 97 % in January 2026, it is 94 % now (28 days from 2026-08-04 to 2026-08-31).");
    }

    /** Readings that differ by 1 % by chance are no fall. */
    @ParameterizedTest
    @ValueSource(ints = {1, 3, 7, 30})
    void aSteadyPersonIsToldNothing(int everyDays) {
        Random random = new Random(20261130L + everyDays);
        for (int i = 0; i < 120; i++) {
            measure(Vitals.NONE.withSpo2(96 + random.nextInt(3) - 1), everyDays);
            assertThat(told(MIA)).as("round %d", i).isEmpty();
        }
    }

    /** An illness asks for a clinician by itself; its days are no usual. */
    @Test
    void anIllnessIsNoSlowFall() {
        until(JANUARY_1.plusDays(30), 97, 1);
        until(JANUARY_1.plusDays(80), 91, 1);
        assertThat(told(MIA)).isEmpty();
        until(JANUARY_1.plusDays(85), 97, 1);
        assertThat(told(MIA)).isEmpty();
    }

    @Test
    void whatLiesMoreThanAYearBackIsForgotten() {
        slowFall(7);
        until(JANUARY_1.plusDays(365 + 40), 94, 7);
        assertThat(told(MIA)).isNotEmpty();
        until(JANUARY_1.plusDays(365 + 130), 94, 7);
        assertThat(told(MIA)).isEmpty();
    }

    /** Whoever has examined the person calls the lower one usual: from there it is held against that. */
    @Test
    void afterAClinicianStatedAUsualItIsHeldAgainstThat() {
        slowFall(1);
        LocalDate stated = day;
        until(stated.plusDays(20), 94, 1);
        assertThat(told(stating(94, stated, null))).isEmpty();
        assertThat(told(stating(94, stated, false))).isEmpty();
        assertThat(told(stating(94, stated, true)))
                .as("one on oxygen says nothing of values in air")
                .isNotEmpty();

        until(stated.plusDays(60), 97, 1);
        until(stated.plusDays(110), 95, 1);
        assertThat(told(stating(94, stated, false))).isEmpty();
        until(stated.plusDays(160), 94, 1);
        assertThat(told(stating(94, stated, false)))
                .extracting(SlowChange::words)
                .containsExactly(
                        "The usual SpO2 was 97 % from September 2026 to October 2026, it is 94 % now (28 days from 2027-01-11 to 2027-02-07).");
    }

    /** What falls as far below a stated usual asks for a clinician on the day itself. */
    @Test
    void aFallFromTheStatedUsualWaitsForNoMonths() {
        slowFall(1);
        LocalDate stated = day;
        until(stated.plusDays(3), 91, 1);

        assertThat(days(stating(94, stated, false)).askedForClinician()).hasSize(3);
    }

    /** Going from oxygen to air, the number falls by that alone. */
    @Test
    void valuesOnOxygenAreHeldAgainstTheirOwn() {
        for (int i = 0; i < 20; i++) {
            measure(Vitals.NONE.withSpo2(98).withOnOxygen(true), 1);
        }
        for (int i = 0; i < 60; i++) {
            measure(Vitals.NONE.withSpo2(i < 30 ? 96 : 95).withOnOxygen(false), 1);
        }
        assertThat(told(MIA)).isEmpty();
        for (int i = 0; i < 40; i++) {
            measure(Vitals.NONE.withSpo2(i < 20 ? 96 : 95).withOnOxygen(true), 2);
        }
        assertThat(told(MIA))
                .extracting(SlowChange::how, SlowChange::then)
                .containsExactly(org.assertj.core.groups.Tuple.tuple("on oxygen", 98.0));
    }

    @Test
    void aCountedRateThatRisesIsToldAndAHeardOneIsNot() {
        for (int month = 0; month < 8; month++) {
            while (day.isBefore(JANUARY_1.plusMonths(month + 1))) {
                measure(Vitals.NONE.withRespiratoryRate(15 + 5 * month / 7), 3);
            }
        }
        assertThat(told(MIA))
                .extracting(SlowChange::vital, SlowChange::then, SlowChange::now)
                .containsExactly(org.assertj.core.groups.Tuple.tuple(Vital.RESPIRATORY_RATE, 15.0, 20.0));

        rounds.replaceAll(
                r -> r.with(Vitals.NONE.withRespiratoryRate(r.vitals().respiratoryRatePerMinute(), RateSource.HEARD)));
        assertThat(told(MIA)).isEmpty();
    }
}
