package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** More oxygen for the same SpO2 is a change that the SpO2 hides, and a flow is changed only as the clinician who ordered it said. Common practice [C]. */
class OxygenFlowTest {
    private static final String DAYS = "of 5 days from 2026-03-01 to 2026-03-05, none of which asked for a clinician";

    private static Situation person(@Nullable Double flow, @Nullable Integer spo2, @Nullable UsualFlow before) {
        Age age = Age.ofYears(10);
        return Baseline.of(age)
                .with(Baseline.vitals(age).withOnOxygen(true).withSpo2(spo2).withOxygenFlow(flow))
                .with(EarlierDays.NONE.withUsualFlow(before));
    }

    private static UsualFlow before(double flow, @Nullable Integer spo2) {
        return new UsualFlow(flow, spo2, DAYS);
    }

    @ParameterizedTest
    @CsvSource(
            nullValues = "?",
            value = {
                "2, 95, 3, 95, BE_SEEN_TODAY",
                "2, 95, 3, 93, BE_SEEN_TODAY",
                "2, 95, 3, 97, BE_SEEN_TODAY",
                "2, 95, 3, 98, NEXT_TAKE",
                "2, ?, 3, 98, BE_SEEN_TODAY",
                "2, 95, 3, ?, BE_SEEN_TODAY",
                "2, 95, 2.3, 95, BE_SEEN_TODAY",
                "2, 95, 2.2, 95, KEEP_WATCHING",
                "2, 95, 2, 95, KEEP_WATCHING",
                "3, 95, 2, 95, KEEP_WATCHING",
                "0.1, 97, 0.12, 97, BE_SEEN_TODAY",
                "2, 95, ?, 95, KEEP_WATCHING"
            })
    void moreOxygenForTheSameOrALowerSpo2IsToBeSeenToday(
            double before, @Nullable Integer then, @Nullable Double flow, @Nullable Integer now, Outcome outcome) {
        NextStep step = Guidance.decide(person(flow, now, before(before, then)));

        assertThat(step.outcome()).isEqualTo(outcome);
        assertThat(Baseline.cites(step, "more-oxygen", "common practice", "C"))
                .isEqualTo(outcome == Outcome.BE_SEEN_TODAY);
        assertThat(Baseline.names(step, "more-oxygen-higher-spo2")).isEqualTo(outcome == Outcome.NEXT_TAKE);
        assertThat(step.reasons().stream()
                        .map(Reason::text)
                        .filter(t ->
                                t.endsWith("It is usual once a clinician has stated the usual SpO2 on oxygen since.")))
                .as("what goes on asking says what ends it")
                .hasSize(outcome == Outcome.KEEP_WATCHING ? 0 : 1);
        assertThat(Guidance.limits(person(flow, now, before(before, then))).stream()
                        .filter(l -> l.vital() == Vital.OXYGEN_FLOW && l.crossed())
                        .map(VitalLimit::outcome))
                .isEqualTo(outcome == Outcome.KEEP_WATCHING ? List.of() : List.of(outcome));
    }

    /** In whoever may retain carbon dioxide a better number is no excuse for more oxygen. */
    @ParameterizedTest
    @EnumSource(
            value = Condition.class,
            names = {"COPD", "HYPERCAPNIA_RISK"})
    void moreOxygenCountsAtEverySpo2InWhoMayRetainCarbonDioxide(Condition condition) {
        Situation person = person(3.0, 99, before(2, 92)).with(Conditions.of(condition));

        NextStep step = Guidance.decide(person);

        assertThat(step.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(step.reasons())
                .extracting(Reason::text)
                .anyMatch(t -> t.contains("may retain carbon dioxide") && t.contains("whether this flow was ordered"));
        assertThat(Guidance.limits(person))
                .anyMatch(l -> l.crossed() && l.words().equals("oxygen flow more than a tenth above 2 l/min"));
    }

    @Test
    void bothFlowsTheDaysAndWhoMayChangeTheFlowAreSaid() {
        NextStep step = Guidance.decide(person(3.0, 95, before(2, 95)));

        assertThat(step.reasons())
                .extracting(Reason::text)
                .anyMatch(t -> t.startsWith("Oxygen flow 3 l/min now with SpO2 95 %, and was 2 l/min with SpO2 95 % ("
                                + DAYS + ").")
                        && t.contains("Change the flow only as the clinician who ordered the oxygen said"));
        assertThat(step.cautions())
                .anyMatch(c -> c.startsWith("Change the flow of the oxygen only as the clinician who ordered it said")
                        && c.contains("An unchanged flow says nothing good"));
        assertThat(Guidance.decide(Baseline.of(Age.ofYears(10))).cautions()).noneMatch(c -> c.contains("flow"));
        assertThat(Guidance.decide(person(2.0, 95, before(2, 95))).wouldChange())
                .contains(
                        "Oxygen flow more than a tenth above 2 l/min, for the same SpO2 or a lower one: be seen today.");
    }

    @Test
    void aMissingFlowIsAskedForAndWhatItCannotBeHeldAgainstIsSaid() {
        assertThat(Guidance.decide(person(null, 95, null)).missing())
                .extracting(Missing::id)
                .contains("oxygen-flow")
                .doesNotContain("oxygen-flow-before");
        assertThat(Guidance.decide(person(2.0, 95, null)).missing())
                .extracting(Missing::id)
                .contains("oxygen-flow-before")
                .doesNotContain("oxygen-flow");
        assertThat(Guidance.decide(Baseline.of(Age.ofYears(10))).missing())
                .extracting(Missing::id)
                .doesNotContain("oxygen-flow", "oxygen-flow-before");
    }

    /** SpO2 is held against its own usual on oxygen at whatever flow: another one is said beside it. */
    @ParameterizedTest
    @CsvSource(
            nullValues = "?",
            value = {
                "3, 'Measured on more oxygen than before: 3 l/min now, 2 l/min before.'",
                "1, 'Measured on less oxygen than before: 1 l/min now, 2 l/min before.'",
                "?, At which flow is not written down; before it was 2 l/min."
            })
    void anotherFlowIsSaidBesideAFallFromTheOwnUsual(@Nullable Double flow, String said) {
        Situation person = person(flow, 93, before(2, 97));
        EarlierDays earlier = EarlierDays.of(new UsualSpo2(97, DAYS))
                .withUsualFlow(person.earlier().usualFlow());

        assertThat(Guidance.decide(person.with(earlier)).reasons())
                .extracting(Reason::text)
                .anyMatch(t -> t.contains("below this person's own usual, 97 % (" + DAYS + "). " + said + " Warm"));
        assertThat(Guidance.decide(person(2.0, 93, before(2, 97)).with(earlier)).reasons())
                .extracting(Reason::text)
                .anyMatch(t -> t.contains("own usual"))
                .noneMatch(t -> t.contains("easured on") || t.contains("At which flow"));
        assertThat(before(2, 97).beside(false, null)).isEmpty();
    }
}
