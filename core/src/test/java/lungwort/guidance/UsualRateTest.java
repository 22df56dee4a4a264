package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import lungwort.BadInput;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A breathing rate against this person's own usual. Yañez et al., Chest 2012;142(6):1524-1529, abstract [P]: in COPD at home a mean rise by 4.4 a minute told a stay in hospital a day before (sensitivity
 * 66 %, specificity 93 %). For a count over one minute: common practice [C].
 */
class UsualRateTest {
    private static final Age AGE = Age.ofYears(70);
    private static final String RULE = "rate-above-own-usual-copd";

    private static Situation person(double usual, int rate) {
        return Baseline.of(AGE)
                .with(Conditions.of(Condition.COPD))
                .with(earlier(usual))
                .with(Baseline.vitals(AGE).withRespiratoryRate(rate));
    }

    private static EarlierDays earlier(double usual) {
        return EarlierDays.NONE.withUsualRate(new UsualRate(usual, "of 12 days from 2026-11-01 to 2026-11-28"));
    }

    /** NEWS2 gives a rate of up to 20 no point: each of these is within its limits. */
    @ParameterizedTest
    @CsvSource({
        "15, 19, false",
        "15, 20, true",
        "14.5, 18, false",
        "14.5, 19, true",
        "13, 17, false",
        "13, 18, true",
        "19, 13, false"
    })
    void aRiseCountsWithinTheLimitsToo(double usual, int rate, boolean counts) {
        NextStep step = Guidance.decide(person(usual, rate));

        assertThat(step.outcome()).isEqualTo(counts ? Outcome.BE_SEEN_TODAY : Outcome.KEEP_WATCHING);
        assertThat(Baseline.cites(step, RULE, "Yañez et al., Chest 2012", "P")).isEqualTo(counts);
        assertThat(Guidance.limits(person(usual, rate)))
                .filteredOn(l -> l.words().contains("own usual"))
                .singleElement()
                .satisfies(l -> assertThat(l.crossed()).isEqualTo(counts));
    }

    @Test
    void itSaysTheUsualAndToCountAgain() {
        assertThat(Guidance.decide(person(15, 20)).reasons())
                .filteredOn(r -> r.rule().equals(RULE))
                .singleElement()
                .satisfies(r -> assertThat(r.text())
                        .startsWith(
                                "The breathing rate is more than 4 a minute above this person's own usual, 15 breaths a minute (of 12 days from 2026-11-01 to 2026-11-28).")
                        .contains("Count again over a full minute"));
    }

    @Test
    void beforeItRisesTheNumberIsSaid() {
        assertThat(Guidance.decide(person(14.5, 16)).wouldChange())
                .contains(
                        "Breathing rate 19 breaths a minute or more, more than 4 above this person's own usual of 14.5 breaths a minute (of 12 days from 2026-11-01 to 2026-11-28): be seen today.");
        assertThat(Guidance.decide(person(14.5, 16).with(EarlierDays.NONE)).wouldChange())
                .noneMatch(w -> w.contains("own usual"));
    }

    /** A rate that was heard may be twice or half the true one, and asleep is slower. Nothing is published for people without COPD, or for children. */
    @ParameterizedTest
    @CsvSource(
            nullValues = "?",
            value = {
                "HEARD, ?, 70, COPD, false",
                "COUNTED, true, 70, COPD, false",
                "COUNTED, false, 70, COPD, true",
                "?, ?, 70, COPD, true",
                "COUNTED, ?, 70, ASTHMA, false",
                "COUNTED, ?, 17, COPD, false",
                "COUNTED, ?, 18, COPD, true"
            })
    void onlyWhatWasCountedAwakeIsHeldAgainstIt(
            @Nullable RateSource source, @Nullable Boolean asleep, int years, Condition condition, boolean counts) {
        Situation person = person(15, 20);
        Vitals vitals = person.vitals().withRespiratoryRate(20, source).withAsleep(asleep);
        Situation asked = Baseline.of(Age.ofYears(years))
                .with(Conditions.of(condition))
                .with(earlier(15))
                .with(vitals);

        assertThat(Baseline.names(Guidance.decide(asked), RULE)).isEqualTo(counts);
        assertThat(Guidance.limits(asked).stream().anyMatch(l -> l.words().contains("own usual")))
                .as("what does not count for this person is no limit")
                .isEqualTo(years >= 18 && condition == Condition.COPD);
    }

    @Test
    void ratesThatNobodyBreathesAreRefused() {
        assertThatThrownBy(() -> new UsualRate(-1, "")).isInstanceOf(BadInput.class);
        assertThat(new UsualRate(15.6, "of 3 days").risen()).isEqualTo(20);
        assertThat(new UsualRate(15.7, "of 3 days").risen()).isEqualTo(21);
    }
}
