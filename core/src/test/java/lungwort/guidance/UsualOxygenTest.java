package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** SpO2 against this person's own usual. BTS guideline for oxygen use in adults, summary in BMJ Open Respir Res 2017;4:e000170: clinical assessment is recommended if the saturation
 * falls by 3 % or more, or below the target range [P]. So a fall counts inside the range too. */
class UsualOxygenTest {
    private static final ClinicianLimits SCALE_2 =
            new ClinicianLimits(null, null, null, true, null, "a chest physician", "2026-03-14");

    private static UsualSpo2 usual(int percent) {
        return new UsualSpo2(percent, "of 5 days that asked for no clinician");
    }

    private static Situation person(int spo2) {
        return Baseline.of(Age.ofYears(74))
                .with(SCALE_2)
                .with(Baseline.vitals(Age.ofYears(74)).withSpo2(spo2));
    }

    @ParameterizedTest
    @CsvSource({"92, 90, KEEP_WATCHING", "92, 89, BE_SEEN_TODAY", "91, 88, BE_SEEN_TODAY", "88, 90, KEEP_WATCHING"})
    void aFallOfThreePercentCountsInsideTheTargetToo(int usual, int today, Outcome outcome) {
        NextStep step = Guidance.decide(person(today).withUsualSpo2(usual(usual)));

        assertThat(step.outcome()).isEqualTo(outcome);
        assertThat(Baseline.cites(step, "oxygen-below-own-usual", "BTS guideline", "P"))
                .isEqualTo(outcome == Outcome.BE_SEEN_TODAY);
    }

    @Test
    void itSaysBothNumbersOfWhichDaysTheUsualIsAndToMeasureAgain() {
        assertThat(Guidance.decide(person(89).withUsualSpo2(usual(92))).reasons())
                .extracting(Reason::text)
                .anyMatch(t -> t.startsWith(
                                "SpO2 89 % in air is 3 % or more below this person's own usual, 92 % (of 5 days that asked for no clinician).")
                        && t.contains("measure again"));
    }

    @Test
    void beforeItFallsTheNumberIsSaid() {
        assertThat(Guidance.decide(person(91).withUsualSpo2(usual(92))).wouldChange())
                .contains(
                        "SpO2 89 % or less, 3 % below this person's own usual of 92 % (of 5 days that asked for no clinician): be seen today.");
        assertThat(Guidance.decide(person(91)).wouldChange()).noneMatch(w -> w.contains("own usual"));
    }

    private static EarlierDays earlier(boolean withoutOxygen) {
        return new EarlierDays(usual(91), usual(95), usual(96), withoutOxygen, List.of());
    }

    /** Common practice: oxygen lifts the number, so that values in air and on oxygen each make their own usual. Where nobody said how, the higher one is the cautious reading. */
    @ParameterizedTest
    @CsvSource(
            nullValues = "?",
            value = {
                "false, 92, false",
                "false, 88, true",
                "true, 93, false",
                "true, 92, true",
                "?, 94, false",
                "?, 93, true"
            })
    void aValueIsHeldAgainstTheUsualOfItsOwnKind(@Nullable Boolean onOxygen, int spo2, boolean below) {
        Situation person = person(spo2).with(earlier(false));
        NextStep step = Guidance.decide(person.with(person.vitals().withOnOxygen(onOxygen)));

        assertThat(Baseline.names(step, "oxygen-below-own-usual")).isEqualTo(below);
    }

    /** Common practice, and NEWS2 gives two points for extra oxygen [S]: 91 % on oxygen is not the 91 % in air that it looks like. */
    @Test
    void toNeedOxygenIsAChangeThoughTheNumberLooksAsUsual() {
        Situation inAir = person(91).with(new EarlierDays(usual(91), usual(91), usual(91), true, List.of()));
        Situation onOxygen = inAir.with(inAir.vitals().withOnOxygen(true));

        assertThat(Guidance.decide(inAir).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(Guidance.decide(inAir).wouldChange())
                .contains("Extra oxygen is needed, which was not needed until now: be seen today.");
        NextStep step = Guidance.decide(onOxygen);
        assertThat(step.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Baseline.cites(step, "oxygen-newly-needed", "NEWS2", "S")).isTrue();
        assertThat(Baseline.names(
                        Guidance.decide(onOxygen.with(onOxygen.vitals().withSpo2(null))), "oxygen-newly-needed"))
                .as("also where the number was not taken")
                .isTrue();
        assertThat(Baseline.names(Guidance.decide(onOxygen.with(earlier(false))), "oxygen-newly-needed"))
                .as("not for who is used to it")
                .isFalse();
    }

    private static NextStep slowly(Vital vital, double then, double now) {
        return Guidance.decide(person(91)
                .with(new EarlierDays(
                        null,
                        null,
                        null,
                        false,
                        List.of(new SlowChange(
                                vital, "", then, "in January 2026", now, "12 days from 2026-11-01 to 2026-11-28")))));
    }

    /** BTS [P]: a fall of 3 % or more is to be assessed. That it counts over months, too, is common practice [C]. */
    @Test
    void aUsualThatFellOverMonthsIsToldAndTalkedAbout() {
        NextStep step = slowly(Vital.SPO2, 97, 94);

        assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(step.reasons())
                .extracting(Reason::text)
                .anyMatch(
                        t -> t.contains(
                                "The usual SpO2 was 97 % in January 2026, it is 94 % now (12 days from 2026-11-01 to 2026-11-28)."));
        assertThat(step.actions()).anyMatch(a -> a.startsWith("Talk to this person's clinician in the next days"));
        assertThat(slowly(Vital.SPO2, 97, 94.5).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(slowly(Vital.SPO2, 94, 97).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
    }

    @Test
    void aUsualBreathingRateThatRoseOverMonthsIsToldToo() {
        assertThat(slowly(Vital.RESPIRATORY_RATE, 14, 19).outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(slowly(Vital.RESPIRATORY_RATE, 14, 19).actions())
                .anyMatch(a -> a.contains("the usual breathing rate has risen over months"));
        assertThat(slowly(Vital.RESPIRATORY_RATE, 14, 18).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(slowly(Vital.RESPIRATORY_RATE, 19, 14).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
    }

    @Test
    void whereItIsNotKnownNothingIsAssumed() {
        assertThat(Baseline.names(Guidance.decide(person(89)), "oxygen-below-own-usual"))
                .isFalse();
    }

    @Test
    void itStandsAmongTheLimitsThatHold() {
        assertThat(Guidance.limits(person(89).withUsualSpo2(usual(92))))
                .filteredOn(VitalLimit::crossed)
                .singleElement()
                .satisfies(l -> assertThat(l.words())
                        .isEqualTo("SpO2 89 % or less, 3 % below this person's own usual of 92 %"));
        assertThat(Guidance.limits(person(90).withUsualSpo2(usual(92)))).noneMatch(VitalLimit::crossed);
    }

    /** NEWS2: 21 to 24 breaths a minute are two points in one part; no graver limit is crossed. */
    @Test
    void aLimitThatAsksForAnotherLookIsToldWhereItIsCrossed() {
        Situation person =
                person(90).with(Baseline.vitals(Age.ofYears(74)).withSpo2(90).withRespiratoryRate(22));

        assertThat(Guidance.limits(person))
                .filteredOn(VitalLimit::crossed)
                .singleElement()
                .satisfies(l -> assertThat(l.vital()).isEqualTo(Vital.RESPIRATORY_RATE))
                .satisfies(l -> assertThat(l.outcome()).isEqualTo(Outcome.NEXT_TAKE));
        assertThat(Guidance.decide(person).reasons())
                .extracting(Reason::rule)
                .contains("news2-respiratory-rate-high-2");
    }

    @Test
    void whereAGraverLimitIsCrossedTheMilderOneIsNotTold() {
        Situation person =
                person(90).with(Baseline.vitals(Age.ofYears(74)).withSpo2(90).withRespiratoryRate(26));

        assertThat(Guidance.limits(person))
                .filteredOn(VitalLimit::crossed)
                .extracting(VitalLimit::outcome)
                .containsOnly(Outcome.BE_SEEN_TODAY);
    }
}
