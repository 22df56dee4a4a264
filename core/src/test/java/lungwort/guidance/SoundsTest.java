package lungwort.guidance;

import static lungwort.examine.Suggestion.BOTH;
import static lungwort.examine.Suggestion.CANNOT_TELL;
import static lungwort.examine.Suggestion.CONTINUOUS;
import static lungwort.examine.Suggestion.DISCONTINUOUS;
import static lungwort.examine.Suggestion.NONE_HEARD;
import static lungwort.examine.Suggestion.NONE_STANDS_OUT;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import lungwort.BadInput;
import lungwort.examine.Suggestion;
import lungwort.guidance.SoundFinding.Clearing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Sounds with symptoms: REFERENCE.md sections 1 and 3. */
class SoundsTest {
    private static final Age ADULT = Age.ofYears(50);
    private static final Site BASE = Sites.of("back-lower-left");

    private static SoundFinding first(Suggestion suggestion) {
        return SoundFinding.first(BASE, suggestion);
    }

    private static Situation asthma(Age age) {
        return Baseline.of(age).with(Conditions.of(Condition.ASTHMA));
    }

    private static Situation breathless(Situation s, Breathlessness how) {
        return s.with(s.symptoms().withBreathlessness(how));
    }

    /** [C] extra sounds with shortness of breath at rest, chest pain, fever or signs of a chest infection, or low SpO2: get evaluated. */
    @ParameterizedTest
    @ValueSource(strings = {"breathless", "chest pain", "fever", "infection", "oxygen"})
    void anExtraSoundWithASymptomIsToBeEvaluated(String with) {
        Situation s = Baseline.of(ADULT);
        Symptoms y = s.symptoms();
        Situation ill = switch (with) {
            case "breathless" -> s.with(y.withBreathlessness(Breathlessness.AT_REST));
            case "chest pain" -> s.with(y.withChestPain(true));
            case "fever" -> s.with(y.withFever(true));
            case "infection" -> s.with(y.withChestInfection(true));
            default -> s.with(s.vitals().withSpo2(94));
        };
        String rule = with.equals("oxygen") ? "extra-sound-with-low-oxygen" : "extra-sound-with-symptoms";
        for (Suggestion extra : List.of(CONTINUOUS, DISCONTINUOUS, BOTH)) {
            NextStep step = Guidance.decide(ill.plus(first(extra)));
            assertThat(Baseline.cites(step, rule, "common practice", "C")).isTrue();
            assertThat(step.outcome().atLeast(Outcome.BE_SEEN_TODAY)).isTrue();
        }
        assertThat(Baseline.names(Guidance.decide(ill.plus(first(NONE_HEARD))), rule))
                .isFalse();
        assertThat(Baseline.names(Guidance.decide(s.plus(first(CONTINUOUS))), rule))
                .isFalse();
    }

    /** NICE NG143 [S]: crackles are amber under 5 with a fever; temperature and the caregiver's word both make a fever. */
    @Test
    void cracklesWithAFeverUnder5AreAmber() {
        for (int months : List.of(0, 59)) {
            Situation s = Baseline.of(new Age(months)).plus(first(DISCONTINUOUS));
            assertThat(Baseline.cites(
                            Guidance.decide(s.with(s.symptoms().withFever(true))),
                            "ng143-amber-crackles",
                            "NG143",
                            "S"))
                    .isTrue();
            assertThat(Baseline.names(
                            Guidance.decide(s.with(s.vitals().withTemperature(38.0))), "ng143-amber-crackles"))
                    .isTrue();
            assertThat(Baseline.names(
                            Guidance.decide(s.with(s.vitals().withTemperature(37.9))), "ng143-amber-crackles"))
                    .isFalse();
        }
        Situation five = Baseline.of(new Age(60)).plus(first(DISCONTINUOUS));
        assertThat(Baseline.names(Guidance.decide(five.with(five.symptoms().withFever(true))), "ng143-amber-crackles"))
                .isFalse();
    }

    /** Silent chest: BTS/SIGN, adult asthma [P]; GINA, children [S]. */
    @Test
    void aSilentChestIsAnEmergency() {
        for (Age age : List.of(Age.ofMonths(8), Age.ofYears(4), Age.ofYears(9), ADULT)) {
            SoundFinding silent = first(NONE_HEARD).withBreathHeard(false);
            NextStep step = Guidance.decide(
                    breathless(Baseline.of(age), Breathlessness.ON_EFFORT).plus(silent));
            assertThat(step.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
            assertThat(Baseline.cites(step, "silent-chest", "BTS/SIGN", "P")).isTrue();
            assertThat(Baseline.cites(step, "silent-chest", "GINA", "S")).isTrue();
            Situation fast = Baseline.of(age).plus(silent);
            fast = fast.with(fast.vitals().withRespiratoryRate(72));
            assertThat(Baseline.names(Guidance.decide(fast), "silent-chest-with-numbers"))
                    .isTrue();
            assertThat(Guidance.decide(fast).outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
            assertThat(Guidance.decide(Baseline.of(age).plus(silent)).outcome()).isEqualTo(Outcome.NEXT_TAKE);
        }
    }

    /** Sounds of voice, nose and throat are heard over the chest (common practice); a noise with every breath stays a danger sign (stridor, grunting). Clicks are no voice's. */
    @Test
    void beforeTonesAreListenedToAgainVoicesAreKeptOut() {
        for (Age age : List.of(Age.ofMonths(8), ADULT)) {
            String asked = String.join(
                    " ",
                    Guidance.decide(Baseline.of(age)
                                    .plus(first(CONTINUOUS))
                                    .plus(SoundFinding.first(Sites.of("back-lower-right"), CONTINUOUS)))
                            .actions());
            assertThat(asked)
                    .containsOnlyOnce("heard all over the chest")
                    .contains(age.equals(ADULT) ? "through the open mouth" : "clear the nose")
                    .contains("with every breath is a danger sign");
            assertThat(String.join(
                            " ",
                            Guidance.decide(Baseline.of(age).plus(first(DISCONTINUOUS)))
                                    .actions()))
                    .contains("listen again")
                    .doesNotContain("heard all over the chest");
        }
    }

    /** A fever by the caregiver's word alone, or by the thermometer. */
    @Test
    void aFeverByItselfAsksToListenAgain() {
        Situation s = Baseline.of(ADULT);
        NextStep step = Guidance.decide(s.with(s.symptoms().withFever(true)));
        assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(step.actions()).anyMatch(a -> a.contains("again in a few hours"));
        Situation pregnant = s.with(Conditions.of(Condition.PREGNANCY));
        assertThat(Guidance.decide(pregnant.with(s.symptoms().withFever(true))).outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    @Test
    void noneHeardInABreathlessPersonWithAsthmaRaisesTheOutcome() {
        Situation attack = breathless(asthma(ADULT), Breathlessness.AT_REST);
        assertThat(Guidance.decide(attack).outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        NextStep quiet = Guidance.decide(attack.plus(first(NONE_HEARD)));
        assertThat(quiet.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        assertThat(Baseline.cites(quiet, "no-wheeze-in-an-attack", "BTS/SIGN", "P"))
                .isTrue();
    }

    /**
     * What is passed over in a recording unlike what was learnt from reassures even less: every rule on "none heard" holds, the caution stands beside, and nobody is told that a chest was listened to and
     * nothing heard.
     */
    @Test
    void nothingThatStandsOutIsNeverMilderThanNoneHeard() {
        for (Breathlessness breathless : Breathlessness.values()) {
            Situation s = breathless(asthma(ADULT), breathless);
            NextStep none = Guidance.decide(s.plus(first(NONE_HEARD)));
            NextStep unfamiliar = Guidance.decide(s.plus(first(NONE_STANDS_OUT)));
            assertThat(unfamiliar.outcome()).as("%s", breathless).isEqualTo(none.outcome());
            assertThat(Baseline.names(unfamiliar, "recording-unfamiliar")).isTrue();
            assertThat(Baseline.names(none, "recording-unfamiliar")).isFalse();
            assertThat(unfamiliar.reasons())
                    .as("%s", breathless)
                    .anyMatch(r -> r.text().startsWith("No extra sound was found"))
                    .noneMatch(r -> r.text().contains("No extra sound was heard"));
        }
    }

    /** Where a wheeze was heard at one place and nothing at another, "no extra sound was found" would be untrue, and the sound itself asks for a clinician. */
    @Test
    void oneQuietPlaceBesideAWheezeIsNotToldAsNoExtraSound() {
        for (Age age : List.of(Age.ofMonths(8), ADULT)) {
            Situation s = breathless(Baseline.of(age), Breathlessness.ON_EFFORT);
            NextStep quiet = Guidance.decide(s.plus(first(NONE_HEARD)));
            NextStep both = Guidance.decide(
                    s.plus(first(NONE_HEARD)).plus(SoundFinding.first(Sites.of("back-lower-right"), CONTINUOUS)));
            assertThat(Baseline.names(quiet, "none-heard-but-breathless")).isTrue();
            assertThat(Baseline.names(both, "none-heard-but-breathless")).isFalse();
            assertThat(Baseline.names(both, "extra-sound-with-breathlessness")).isTrue();
            assertThat(both.outcome()).isEqualTo(quiet.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        }
    }

    @Test
    void noneHeardInABreathlessPersonRaisesTheOutcome() {
        Situation s = breathless(Baseline.of(ADULT), Breathlessness.ON_EFFORT);
        assertThat(Guidance.decide(s).outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(Guidance.decide(s.plus(first(NONE_HEARD))).outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    /** Common practice: nobody can ask a baby to cough, and in babies the nose is heard in the chest. */
    @Test
    void aSmallChildIsNotAskedForWhatItCannotDo() {
        SoundFinding finding = first(CONTINUOUS).then(TakeReason.MOVED, CONTINUOUS);

        assertThat(Guidance.decide(Baseline.of(Age.ofMonths(7)).plus(finding)).actions())
                .anyMatch(a -> a.contains("clear the nose"))
                .noneMatch(a -> a.contains("Have the person"));
        assertThat(TakeReason.AFTER_COUGH.instruction(Age.ofMonths(47))).startsWith("Do not make a small child cough");
        assertThat(TakeReason.AFTER_COUGH.instruction(Age.ofMonths(48))).startsWith("Have the person cough");
    }

    @Test
    void anExtraSoundAloneAsksForTheNextTakesInOrderAndThenToBeSeen() {
        SoundFinding finding = first(CONTINUOUS);
        for (TakeReason next : List.of(TakeReason.MOVED, TakeReason.AFTER_DEEP_BREATHS, TakeReason.AFTER_COUGH)) {
            NextStep step = Guidance.decide(Baseline.of(ADULT).plus(finding));
            assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
            assertThat(finding.nextTake()).isEqualTo(next);
            assertThat(step.actions())
                    .anyMatch(a -> a.contains("back, lower, left") && a.endsWith(next.instruction(ADULT)));
            finding = finding.then(next, CONTINUOUS);
        }
        assertThat(finding.clearing()).isEqualTo(Clearing.PERSISTS);
        NextStep step = Guidance.decide(Baseline.of(ADULT).plus(finding));
        assertThat(step.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Baseline.cites(step, "extra-sound-persists", "common practice", "C"))
                .isTrue();
    }

    @Test
    void aSoundThatClearedStillCountsAsHeardWithSymptoms() {
        SoundFinding cleared = first(DISCONTINUOUS).then(TakeReason.AFTER_COUGH, NONE_HEARD);
        assertThat(cleared.clearing()).isEqualTo(Clearing.CLEARED);
        Situation s = Baseline.of(ADULT).plus(cleared);
        assertThat(Guidance.decide(s).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(Baseline.names(Guidance.decide(s), "extra-sound-cleared")).isTrue();
        assertThat(Guidance.decide(s.with(s.symptoms().withFever(true))).outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    /** That nothing stands out in a recording unlike what was learnt from clears nothing: the next takes go on, such a take counts as made, and at the end a clinician listens. */
    @Test
    void nothingThatStandsOutClearsNoExtraSound() {
        SoundFinding finding = first(DISCONTINUOUS);
        for (TakeReason next : List.of(TakeReason.MOVED, TakeReason.AFTER_DEEP_BREATHS, TakeReason.AFTER_COUGH)) {
            assertThat(finding.nextTake()).isEqualTo(next);
            assertThat(finding.clearing()).isEqualTo(Clearing.NOT_SETTLED);
            finding = finding.then(next, NONE_STANDS_OUT);
        }
        assertThat(finding.nextTake()).isNull();
        assertThat(finding.clearing()).isEqualTo(Clearing.PERSISTS);
        NextStep step = Guidance.decide(Baseline.of(ADULT).plus(finding));
        assertThat(step.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Baseline.names(step, "extra-sound-persists")).isTrue();
        assertThat(Baseline.names(step, "extra-sound-cleared")).isFalse();
        assertThat(first(DISCONTINUOUS)
                        .then(TakeReason.MOVED, NONE_HEARD)
                        .then(TakeReason.AFTER_DEEP_BREATHS, NONE_STANDS_OUT)
                        .clearing())
                .as("nor does it take back what a take before it told")
                .isEqualTo(Clearing.CLEARED);
    }

    /** A site with nothing else asks for no next take, as after none heard. */
    @Test
    void nothingThatStandsOutAsksForNoOtherTake() {
        assertThat(first(NONE_STANDS_OUT).noneHeard()).isTrue();
        assertThat(first(NONE_STANDS_OUT).nextTake()).isNull();
        assertThat(first(NONE_STANDS_OUT).clearing()).isEqualTo(Clearing.NO_EXTRA_SOUND);
    }

    @Test
    void aTakeThatCannotBeJudgedSettlesNothing() {
        SoundFinding finding = first(CONTINUOUS).then(TakeReason.MOVED, CANNOT_TELL);
        assertThat(finding.nextTake()).isEqualTo(TakeReason.MOVED);
        assertThat(finding.clearing()).isEqualTo(Clearing.NOT_SETTLED);
        assertThat(Guidance.decide(Baseline.of(ADULT).plus(first(CANNOT_TELL))).outcome())
                .isEqualTo(Outcome.NEXT_TAKE);
    }

    /** A good recording that cannot tell is not mended by a quieter room: a cough comes next, then a clinician's ears. */
    @Test
    void aGoodRecordingThatCannotTellAsksForACoughAndThenForAClinician() {
        SoundFinding once = new SoundFinding(
                null, List.of(new SoundFinding.Take(TakeReason.FIRST, CANNOT_TELL, true)), null, false);
        assertThat(once.unsure()).isTrue();
        assertThat(once.nextTake()).isEqualTo(TakeReason.AFTER_COUGH);
        NextStep step = Guidance.decide(Baseline.of(ADULT).plus(once));
        assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(step.actions())
                .anyMatch(a -> a.contains("Listen there yourself. " + TakeReason.AFTER_COUGH.instruction(ADULT)))
                .noneMatch(a -> a.contains("could not be judged"));

        SoundFinding poorAfterwards = once.then(TakeReason.AFTER_COUGH, CANNOT_TELL);
        assertThat(poorAfterwards.nextTake()).isEqualTo(TakeReason.AFTER_COUGH);

        SoundFinding twice = new SoundFinding(
                null,
                List.of(
                        new SoundFinding.Take(TakeReason.FIRST, CANNOT_TELL, true),
                        new SoundFinding.Take(TakeReason.AFTER_COUGH, CANNOT_TELL, true)),
                null,
                false);
        assertThat(twice.nextTake()).isNull();
        assertThat(Guidance.decide(Baseline.of(ADULT).plus(twice)).actions())
                .anyMatch(a -> a.contains("Have a clinician listen there"));
    }

    @Test
    void aSoundThatAClinicianCallsUsualIsStillASoundOnceSymptomsCome() {
        Situation s = Baseline.of(ADULT).plus(first(CONTINUOUS).withKnownToClinician(true));
        assertThat(Guidance.decide(s).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(Baseline.names(Guidance.decide(s), "extra-sound-known")).isTrue();
        assertThat(Guidance.decide(s.with(s.symptoms().withChestInfection(true)))
                        .outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    @Test
    void aContinuousSoundOverTheNeckSendsTheEyeToStridor() {
        NextStep step = Guidance.decide(Baseline.of(ADULT).plus(SoundFinding.first(Site.NECK, CONTINUOUS)));
        assertThat(step.reasons()).anyMatch(r -> r.text().contains("stridor"));
        assertThat(Baseline.names(
                        Guidance.decide(Baseline.of(ADULT).plus(first(CONTINUOUS))), "continuous-over-the-neck"))
                .isFalse();
    }

    @Test
    void cracklesInHeartFailureAreToBeSeen() {
        Situation s = Baseline.of(ADULT).plus(first(DISCONTINUOUS));
        assertThat(Guidance.decide(s.with(Conditions.of(Condition.HEART_FAILURE)))
                        .outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Guidance.decide(s).outcome()).isEqualTo(Outcome.NEXT_TAKE);
    }

    @ParameterizedTest
    @EnumSource(Breathlessness.class)
    void breathlessnessByItself(Breathlessness how) {
        Outcome expected = switch (how) {
            case NONE -> Outcome.KEEP_WATCHING;
            case ON_EFFORT -> Outcome.NEXT_TAKE;
            case AT_REST -> Outcome.BE_SEEN_TODAY;
            case CANNOT_FINISH_SENTENCES -> Outcome.EMERGENCY_NOW;
        };
        assertThat(Guidance.decide(breathless(Baseline.of(ADULT), how)).outcome())
                .isEqualTo(expected);
    }

    @Test
    void aFindingNeedsATake() {
        assertThatThrownBy(() -> new SoundFinding(BASE, List.of(), null, false)).isInstanceOf(BadInput.class);
    }
}
