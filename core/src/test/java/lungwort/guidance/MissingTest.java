package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;

/** What was not given is asked for or said to be missing, and never taken as normal. */
class MissingTest {
    private static final Map<String, UnaryOperator<Situation>> LEFT_OUT = Map.ofEntries(
            Map.entry("danger-signs", s -> s.with(DangerAnswers.NOT_ASKED)),
            Map.entry("respiratory-rate", s -> s.with(s.vitals().withRespiratoryRate(null))),
            Map.entry("spo2", s -> s.with(s.vitals().withSpo2(null))),
            Map.entry("on-oxygen", s -> s.with(s.vitals().withOnOxygen(null))),
            Map.entry("pulse", s -> s.with(s.vitals().withPulse(null))),
            Map.entry("temperature", s -> s.with(s.vitals().withTemperature(null))),
            Map.entry("systolic", s -> s.with(s.vitals().withSystolic(null))),
            Map.entry("breathlessness", s -> s.with(s.symptoms().withBreathlessness(null))),
            Map.entry("chest-pain", s -> s.with(s.symptoms().withChestPain(null))),
            Map.entry("chest-infection", s -> s.with(s.symptoms().withChestInfection(null))),
            Map.entry(
                    "fever",
                    s -> s.with(s.symptoms().withFever(null)).with(s.vitals().withTemperature(null))),
            Map.entry("emergency-number", s -> s.with((EmergencyNumber) null)));

    /** They need no instrument: nothing milder than "do the next take" is said before they are known. */
    private static final List<String> NEEDED = List.of(
            "danger-signs",
            "respiratory-rate",
            "breathlessness",
            "chest-pain",
            "chest-infection",
            "fever",
            "on-oxygen");

    @Test
    void eachValueThatIsLeftOutIsNamed() {
        Situation whole = Baseline.of(Age.ofYears(40));
        LEFT_OUT.forEach((id, leaveOut) -> {
            NextStep step = Guidance.decide(leaveOut.apply(whole));
            assertThat(step.missing())
                    .as(id)
                    .anyMatch(m -> m.id().equals(id) && m.text().endsWith("."));
            assertThat(Guidance.decide(whole).missing()).as(id).noneMatch(m -> m.id().equals(id));
            assertThat(step.outcome())
                    .as(id)
                    .isEqualTo(NEEDED.contains(id) ? Outcome.NEXT_TAKE : Outcome.KEEP_WATCHING);
        });
    }

    @Test
    void whatIsNeededIsTheFirstThingToDo() {
        NextStep step = Guidance.decide(Situation.of(Age.ofYears(40)));
        assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(step.actions().get(0)).startsWith("Answer the danger-sign questions");
        assertThat(step.missing().get(0).id()).isEqualTo("danger-signs");
    }

    @Test
    void whatIsMissingIsNamedInAnEmergencyTooButNothingWaitsForIt() {
        NextStep step = Guidance.decide(Situation.of(Age.ofYears(40)).with(DangerAnswers.yes("blue")));
        assertThat(step.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        assertThat(step.missing()).anyMatch(m -> m.id().equals("respiratory-rate"));
        assertThat(step.actions()).noneMatch(a -> a.contains("Count the breaths"));
    }

    @Test
    void consciousnessIsKnownFromTheAnswersOnWakingAndConfusion() {
        Situation s = Baseline.of(Age.ofYears(40));
        s = s.with(s.vitals().withConsciousness(null));
        assertThat(Guidance.decide(s).missing()).noneMatch(m -> m.id().equals("consciousness"));
        assertThat(Guidance.decide(s.with(DangerAnswers.NOT_ASKED)).missing())
                .anyMatch(m -> m.id().equals("consciousness"));
    }

    @Test
    void theEmergencyNumberIsNeverAssumed() {
        Situation s = Baseline.of(Age.ofYears(40)).with((EmergencyNumber) null).with(DangerAnswers.yes("blue"));
        NextStep step = Guidance.decide(s);
        assertThat(String.join(" ", step.actions()))
                .contains("your local emergency number")
                .doesNotContain("999")
                .doesNotContain("112")
                .doesNotContain("911");
        assertThat(Guidance.decide(s.with(new EmergencyNumber("15"))).actions().get(0))
                .startsWith("Call 15 now");
    }

    /** Two recordings of one child differ in the rate that is heard by up to 22 a minute (repeatability on SPRSound): what was heard does not stand for a count. */
    @Test
    void aRateThatWasOnlyHeardIsNoCount() {
        Situation s = Baseline.of(Age.ofMonths(20));
        NextStep within = Guidance.decide(s.with(s.vitals().withRespiratoryRate(32, RateSource.HEARD)));
        assertThat(within.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(within.missing()).anyMatch(m -> m.id().equals("counted-rate"));
        assertThat(within.actions().get(0)).contains("Count the breaths for a full minute");
        NextStep beyond = Guidance.decide(s.with(s.vitals().withRespiratoryRate(74, RateSource.HEARD)));
        assertThat(beyond.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(beyond.actions().get(0)).contains("Count the breaths for a full minute");
        assertThat(beyond.reasons())
                .anyMatch(r -> r.rule().equals("ng9-rate-emergency")
                        && r.text().contains("If the count says the same, it is an emergency"));
        assertThat(Guidance.decide(s.with(s.vitals().withRespiratoryRate(74))).outcome())
                .isEqualTo(Outcome.EMERGENCY_NOW);
    }

    /** Whoever is to be seen today may be an emergency: what tells it by looking comes before the call. Common practice [C]. */
    @Test
    void openDangerSignsComeBeforeArrangingToBeSeen() {
        Situation seen = Baseline.of(Age.ofYears(40)).with(Symptoms.ABSENT.withChestPain(true));
        assertThat(Guidance.decide(seen).outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Guidance.decide(seen).actions().get(0)).startsWith("Call the person's clinician");

        NextStep open = Guidance.decide(seen.with(DangerAnswers.NOT_ASKED));
        assertThat(open.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(open.actions().get(0)).startsWith("First answer the danger-sign questions");

        // What heart failure adds is no emergency, and does not hold up the call.
        Situation heart = seen.with(Conditions.of(Condition.HEART_FAILURE));
        assertThat(Guidance.decide(heart).missing()).anyMatch(m -> m.id().equals("danger-signs"));
        assertThat(Guidance.decide(heart).actions().get(0)).startsWith("Call the person's clinician");
    }

    /** BTS/SIGN, adult asthma [P]: a silent chest is life-threatening. A recording of it is a faint one, and only a listener tells it from a chest piece that lies badly. */
    @Test
    void whoeverRecordsHardlyAnyBreathIsAskedWhetherItWasHeard() {
        Site base = new Site(Site.Face.BACK, Site.Height.LOWER, Site.Side.LEFT);
        SoundFinding.Take faint =
                new SoundFinding.Take(TakeReason.FIRST, lungwort.examine.Suggestion.CANNOT_TELL, false, true);
        SoundFinding quiet = new SoundFinding(base, java.util.List.of(faint), null, false);
        Situation s = Baseline.of(Age.ofYears(40)).with(Symptoms.ABSENT.withBreathlessness(Breathlessness.AT_REST));

        NextStep asked = Guidance.decide(s.with(java.util.List.of(quiet)));
        assertThat(asked.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(asked.actions().get(0)).contains("it may be a silent chest");

        NextStep unheard = Guidance.decide(s.with(java.util.List.of(quiet.withBreathHeard(false))));
        assertThat(unheard.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        for (SoundFinding told : java.util.List.of(
                quiet.withBreathHeard(true), quiet.then(TakeReason.FIRST, lungwort.examine.Suggestion.NONE_HEARD))) {
            assertThat(Guidance.decide(s.with(java.util.List.of(told))).missing())
                    .noneMatch(m -> m.id().equals("breath-heard"));
        }
    }

    @Test
    void aHeardRateTouchesNoOtherReason() {
        Situation s = Baseline.of(Age.ofMonths(20));
        s = s.with(s.vitals().withRespiratoryRate(74, RateSource.HEARD).withSpo2(88));
        assertThat(Guidance.decide(s).outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        ClinicianLimits own =
                new ClinicianLimits(null, new ClinicianLimits.Limit(50, 60), null, false, null, "Dr Example", "");
        Situation limited = Baseline.of(Age.ofMonths(20)).with(own);
        assertThat(Guidance.decide(limited.with(limited.vitals().withRespiratoryRate(61, RateSource.HEARD)))
                        .outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Guidance.decide(limited.with(limited.vitals().withRespiratoryRate(61)))
                        .outcome())
                .isEqualTo(Outcome.EMERGENCY_NOW);
    }
}
