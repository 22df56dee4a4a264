package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Weight in heart failure. More than 2 kg in 3 days: European Society of Cardiology, guide for patients with heart failure, its page on weight gain [P]. That the rise is counted from the lowest of these
 * days, that a number far from the last one is asked about, and how to weigh, is common practice [C].
 */
class WeighingTest {
    private static final Conditions HEART = Conditions.of(Condition.HEART_FAILURE);
    private static final Age OLD = Age.ofYears(78);
    private static final LocalDate TODAY = LocalDate.of(2026, 3, 5);

    private static EarlierWeight before(int days, double kg) {
        return new EarlierWeight(TODAY.minusDays(days), days, kg);
    }

    private static Situation person(Age age, Conditions known) {
        return Baseline.of(age).with(known).with(DangerAnswers.noneOf(age, known));
    }

    private static Situation weighed(Situation person, double kg, EarlierWeight... earlier) {
        return person.with(person.vitals().withWeight(kg)).with(EarlierDays.NONE.withWeights(List.of(earlier)));
    }

    private static NextStep heart(double kg, EarlierWeight... earlier) {
        return Guidance.decide(weighed(person(OLD, HEART), kg, earlier));
    }

    private static String text(NextStep step, String rule) {
        return step.reasons().stream()
                .filter(r -> r.rule().equals(rule))
                .map(Reason::text)
                .findFirst()
                .orElseThrow();
    }

    /** The page says more than 2 kg: at 2.0 kg nothing is said, and 72.1 less 70.1 is 2.0 and no trace more. */
    @ParameterizedTest
    @CsvSource({
        "70.0, 72.0, false",
        "70.0, 72.1, true",
        "70.1, 72.1, false",
        "70.1, 72.2, true",
        "68.3, 70.3, false",
        "68.3, 70.4, true"
    })
    void moreThanTwoKgWithinThreeDaysIsToBeSeenToday(double then, double now, boolean seen) {
        for (int days : new int[] {0, 1, 2, 3}) {
            NextStep step = heart(now, before(days, then));
            assertThat(step.outcome()).isEqualTo(seen ? Outcome.BE_SEEN_TODAY : Outcome.KEEP_WATCHING);
            assertThat(Baseline.cites(step, "weight-rise", "European Society of Cardiology", "P"))
                    .isEqualTo(seen);
        }
        assertThat(Baseline.names(heart(now, before(4, then)), "weight-rise"))
                .as("four days are not three")
                .isFalse();
    }

    @Test
    void itAsksForTheSameStepAsTheQuestion() {
        assertThat(heart(72.5, before(2, 70)).outcome())
                .isEqualTo(Guidance.dangerSign("fluid-gain").outcome());
    }

    @Test
    void theRiseIsCountedFromAnyOfTheseDaysAndNamesItsDayAndBothNumbers() {
        NextStep step = heart(72.4, before(3, 71.5), before(2, 70), before(1, 71));

        assertThat(text(step, "weight-rise"))
                .startsWith(
                        "Rise of weight within 3 days 2.4 kg. It is 72.4 kg now and was 70.0 kg on 2026-03-03, 2 days before.");
        assertThat(text(heart(72.4, before(1, 70)), "weight-rise")).contains("70.0 kg on 2026-03-04, the day before.");
        assertThat(text(heart(72.4, before(0, 70)), "weight-rise")).contains("earlier the same day.");
        assertThat(step.reasons())
                .filteredOn(r -> r.rule().equals("weight-rise"))
                .allMatch(r -> r.limit().equals("rise of weight within 3 days above 2 kg, from 16 years"));
    }

    /** Whoever answered no remembers other numbers; those on the scale count, and it is said that they differ. A yes counts however steady the number is. */
    @Test
    void numbersOutrankANoAndAYesOutranksNumbers() {
        String no = "answered with no; the numbers say otherwise, and they count";
        assertThat(text(heart(72.4, before(2, 70)), "weight-rise")).contains(no);

        Situation open = weighed(person(OLD, HEART), 72.4, before(2, 70)).with(DangerAnswers.noneOf(OLD));
        assertThat(Guidance.decide(open).outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(text(Guidance.decide(open), "weight-rise")).doesNotContain(no);

        Situation yes = weighed(person(OLD, HEART), 70, before(2, 70))
                .with(DangerAnswers.noneOf(OLD, HEART, Set.of("fluid-gain")));
        assertThat(Guidance.decide(yes).outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    @Test
    void aSteadyOrFallingWeightIsNoGoodNewsAndNothingIsSaidOfIt() {
        for (double now : new double[] {70, 70.4, 66}) {
            assertThat(heart(now, before(2, 70), before(1, 70.2)).reasons()).isEmpty();
        }
        Situation breathless = weighed(person(OLD, HEART), 70, before(1, 70));
        breathless = breathless.with(breathless.symptoms().withBreathlessness(Breathlessness.AT_REST));
        assertThat(Guidance.decide(breathless).outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    /** As the question is: from 16 years, with heart failure. */
    @Test
    void withoutHeartFailureAndUnderSixteenItIsToldAndNotJudged() {
        NextStep anyone = Guidance.decide(weighed(person(OLD, Conditions.NONE), 73, before(2, 70)));
        assertThat(anyone.outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(text(anyone, "weight-rise-not-judged"))
                .contains("was 70.0 kg on 2026-03-03")
                .contains("told and not judged");

        NextStep child = Guidance.decide(weighed(person(Age.ofMonths(191), HEART), 43, before(2, 40)));
        assertThat(child.outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(text(child, "weight-of-a-child")).contains("under 16 years").contains("Ask this child's clinician");
        assertThat(Guidance.decide(weighed(person(Age.ofMonths(192), HEART), 43, before(2, 40)))
                        .outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    /** Too few weights: nothing is made of one alone, and it is asked for more. */
    @Test
    void whatIsMissingIsSaid() {
        assertThat(Guidance.decide(person(OLD, HEART)).missing())
                .extracting(Missing::id)
                .contains("weight");
        assertThat(Guidance.decide(person(OLD, Conditions.NONE)).missing())
                .extracting(Missing::id)
                .doesNotContain("weight");
        for (NextStep alone : List.of(heart(72), heart(72, before(4, 70)))) {
            assertThat(alone.missing())
                    .filteredOn(m -> m.id().equals("weight-before"))
                    .singleElement()
                    .satisfies(m -> assertThat(m.text()).contains("does not tell whether the weight has risen"));
        }
        assertThat(heart(72, before(3, 71)).missing())
                .extracting(Missing::id)
                .doesNotContain("weight", "weight-before");
    }

    @Test
    void whichWeightWouldChangeTheStepIsSaid() {
        String above =
                "Weight above 72.0 kg, more than 2 kg above 70.0 kg on 2026-03-03, 2 days before: be seen today.";
        assertThat(heart(71, before(3, 71), before(2, 70)).wouldChange()).contains(above);
        Situation notYet = person(OLD, HEART).with(EarlierDays.NONE.withWeights(List.of(before(2, 70))));
        assertThat(Guidance.decide(notYet).wouldChange()).contains(above);
    }

    /** 70 kg are 154 lb. Neither a rise that alarms nor, read the other way round, a fall that reassures. */
    @ParameterizedTest
    @CsvSource({"70, 154.3", "154.3, 70", "72, 27", "68, 86", "72.4, 52.4"})
    void aNumberFarFromTheLastOneIsAskedAboutAndNotBelieved(double then, double now) {
        NextStep step = heart(now, before(1, then));

        assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(text(step, "weight-far"))
                .startsWith("Weight %s kg is far from %s kg on 2026-03-04, the day before.".formatted(now, then))
                .contains("pounds, or mistyped")
                .contains("neither that the weight has risen nor that it has not");
        assertThat(step.actions()).anyMatch(a -> a.startsWith("Weigh again") && a.contains("If both are right, call"));
        assertThat(Baseline.names(step, "weight-rise")).isFalse();
        assertThat(step.missing()).extracting(Missing::id).contains("weight-before");
    }

    @Test
    void aMistypedWeightBetweenOthersHidesNoRise() {
        NextStep step = heart(72.4, before(3, 70), before(1, 154.3));
        assertThat(step.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(step.reasons()).extracting(Reason::rule).containsExactly("weight-rise", "weight-far");

        NextStep low = heart(72, before(2, 27), before(1, 71.5));
        assertThat(low.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(text(low, "weight-far")).contains("27.0 kg on 2026-03-03");
    }

    /** A rise by steps is seen, however large it is in all. */
    @Test
    void aRiseOfTenKgByStepsIsARise() {
        assertThat(heart(80.4, before(3, 70), before(2, 75), before(1, 78)).outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(heart(80, before(3, 70)).outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    /** Beyond four weeks kg are no longer held against kg, and a child has grown. */
    @Test
    void afterWeeksOnlyWhatNobodyBecomesIsFar() {
        assertThat(Baseline.names(heart(82, before(29, 70)), "weight-far")).isFalse();
        assertThat(Baseline.names(heart(82, before(28, 70)), "weight-far")).isTrue();
        assertThat(Baseline.names(heart(154, before(300, 70)), "weight-far")).isTrue();
        Situation child = weighed(person(Age.ofMonths(14), Conditions.NONE), 10, before(300, 4));
        assertThat(Guidance.decide(child).reasons()).isEmpty();
        Situation pounds = weighed(person(Age.ofMonths(14), Conditions.NONE), 22, before(7, 10));
        assertThat(Baseline.names(Guidance.decide(pounds), "weight-far")).isTrue();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.9, 350.1, Double.NaN})
    void anEarlierWeightOutOfRangeIsRefused(double kg) {
        assertThatThrownBy(() -> before(1, kg)).isInstanceOf(BadInput.class).hasMessageStartingWith("weight: ");
    }

    /** A table of limits names the one that is crossed. */
    @Test
    void theLimitStandsAmongThoseThatHold() {
        assertThat(Guidance.limits(weighed(person(OLD, HEART), 72.1, before(2, 70))))
                .filteredOn(l -> l.vital() == Vital.WEIGHT_RISE)
                .singleElement()
                .satisfies(l -> assertThat(l.crossed()).isTrue());
        assertThat(Guidance.limits(weighed(person(OLD, HEART), 72, before(2, 70))))
                .filteredOn(VitalLimit::crossed)
                .isEmpty();
        assertThat(Guidance.limits(weighed(person(OLD, Conditions.NONE), 80, before(2, 70))))
                .noneMatch(l -> l.vital() == Vital.WEIGHT_RISE);
    }

    /** Whether a day was one of illness for what is usual is asked without the scale. */
    @Test
    void aStepSaysWhetherItIsForTheWeightAlone() {
        NextStep alone = heart(73, before(1, 70));
        assertThat(alone.asksForClinicianBesideWeight()).isFalse();
        Situation both = weighed(person(OLD, HEART), 73, before(1, 70));
        assertThat(Guidance.decide(both.with(both.vitals().withSpo2(93))).asksForClinicianBesideWeight())
                .isTrue();
        assertThat(heart(70).asksForClinicianBesideWeight()).isFalse();
        Situation low = person(OLD, HEART);
        assertThat(Guidance.decide(low.with(low.vitals().withSpo2(93))).asksForClinicianBesideWeight())
                .isTrue();
    }
}
