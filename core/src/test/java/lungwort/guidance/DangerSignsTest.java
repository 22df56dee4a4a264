package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Set;
import lungwort.BadInput;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** REFERENCE.md section 3, the signs that are seen rather than measured: row by row, with source and mark; asked first, and needing no recording. */
class DangerSignsTest {
    @ParameterizedTest
    @CsvSource({
        // WHO IMCI [S]
        "cannot-drink, WHO IMCI, S, 7, EMERGENCY_NOW",
        "vomits-everything, WHO IMCI, S, 7, EMERGENCY_NOW",
        "convulsions, WHO IMCI, S, 7, EMERGENCY_NOW",
        "hard-to-wake, WHO IMCI, S, 7, EMERGENCY_NOW",
        "stridor-when-calm, WHO IMCI, S, 7, EMERGENCY_NOW",
        "grunting, WHO IMCI, S, 7, EMERGENCY_NOW",
        "nasal-flaring, WHO IMCI, S, 7, EMERGENCY_NOW",
        "head-nodding, WHO IMCI, S, 7, EMERGENCY_NOW",
        // NICE NG9, bronchiolitis [S]: emergency
        "pauses-in-breathing, NICE NG9, S, 3, EMERGENCY_NOW",
        "looks-seriously-unwell, NICE NG9, S, 3, EMERGENCY_NOW",
        "grunting, NICE NG9, S, 3, EMERGENCY_NOW",
        "chest-indrawing, NICE NG9, S, 3, EMERGENCY_NOW",
        "blue, NICE NG9, S, 3, EMERGENCY_NOW",
        // NICE NG9: seek referral
        "half-feeds, NICE NG9, S, 3, BE_SEEN_TODAY",
        "dehydration, NICE NG9, S, 3, BE_SEEN_TODAY",
        // NICE NG143, fever under 5 [S]: amber flaring (WHO calls it a danger sign, which is graver), red grunting and
        // indrawing
        "nasal-flaring, NICE NG143, S, 30, EMERGENCY_NOW",
        "grunting, NICE NG143, S, 30, EMERGENCY_NOW",
        "chest-indrawing, NICE NG143, S, 30, EMERGENCY_NOW",
        // BTS/SIGN, adult asthma [P]
        "cannot-finish-sentences, BTS/SIGN, P, 480, EMERGENCY_NOW",
        "blue, BTS/SIGN, P, 480, EMERGENCY_NOW",
        "exhausted, BTS/SIGN, P, 480, EMERGENCY_NOW",
        "poor-effort, BTS/SIGN, P, 480, EMERGENCY_NOW",
        "confused, BTS/SIGN, P, 480, EMERGENCY_NOW",
        // GINA, children [S]
        "blue, GINA, S, 40, EMERGENCY_NOW",
        "cannot-finish-sentences, GINA, S, 40, EMERGENCY_NOW",
        "cannot-drink, GINA, S, 40, EMERGENCY_NOW",
    })
    void aSignThatIsThereOutranksOrdinaryValuesAndAChestWithNoExtraSound(
            String sign, String source, String mark, int months, Outcome outcome) {
        Age age = new Age(months);
        assertThat(Guidance.dangerSigns(age)).as("asked at %s", age.words()).anyMatch(s -> s.id().equals(sign));
        Situation well = Baseline.of(age).plus(SoundFinding.first(Sites.of("back-lower-left"), Suggestion.NONE_HEARD));
        NextStep step = Guidance.decide(well.with(DangerAnswers.noneOf(age, List.of(sign))));
        assertThat(step.outcome()).isEqualTo(outcome);
        assertThat(Baseline.cites(step, sign, source, mark)).isTrue();
        assertThat(step.reasons().get(0).rule()).isEqualTo(sign);
        assertThat(Guidance.decide(well).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
    }

    @Test
    void anAnswerThatIsTakenBackIsNeitherYesNorNo() {
        DangerAnswers answers = new DangerAnswers(Set.of("blue"), Set.of("confused"));
        assertThat(answers.without(Set.of("confused"))).isEqualTo(new DangerAnswers(Set.of("blue"), Set.of()));
        assertThat(answers.without(Set.of("blue", "confused"))).isEqualTo(DangerAnswers.NOT_ASKED);
        assertThatThrownBy(() -> answers.without(Set.of("green"))).isInstanceOf(BadInput.class);
    }

    @Test
    void aYesStaysWhateverIsAnsweredBesideIt() {
        DangerAnswers first = new DangerAnswers(Set.of("blue"), Set.of("confused"));
        DangerAnswers later = new DangerAnswers(Set.of("confused"), Set.of("blue"));
        assertThat(first.and(later).yes()).containsExactly("blue", "confused");
        assertThat(first.and(later).no()).isEmpty();
        assertThat(first.and(DangerAnswers.NOT_ASKED)).isEqualTo(first);
        assertThat(DangerAnswers.NOT_ASKED.and(first)).isEqualTo(first);
    }

    @Test
    void whoLooksAgainCorrectsWhatWasSaid() {
        DangerAnswers first = new DangerAnswers(Set.of("blue", "grunting"), Set.of("confused"));
        DangerAnswers later = new DangerAnswers(Set.of("confused"), Set.of("blue", "exhausted"));
        assertThat(first.correctedBy(later))
                .isEqualTo(new DangerAnswers(Set.of("confused", "grunting"), Set.of("blue", "exhausted")));
        assertThat(first.correctedBy(DangerAnswers.NOT_ASKED)).isEqualTo(first);
        assertThat(DangerAnswers.NOT_ASKED.correctedBy(first)).isEqualTo(first);
    }

    @Test
    void aSignNeedsNoRecordingAndNoMeasurement() {
        NextStep step = Guidance.decide(Situation.of(Age.ofYears(3)).with(DangerAnswers.yes("blue")));
        assertThat(step.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        assertThat(step.actions().get(0)).startsWith("Call your local emergency number now");
        assertThat(step.actions()).anyMatch(a -> a.contains("Do not wait for a recording"));
    }

    @Test
    void aSignCountsAtAnyAgeOnceSomebodySaysItIsThere() {
        NextStep step = Guidance.decide(Situation.of(Age.ofYears(80)).with(DangerAnswers.yes("grunting")));
        assertThat(step.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
    }

    @Test
    void theQuestionsFitTheAge() {
        assertThat(Guidance.dangerSigns(Age.ofMonths(2)))
                .extracting(DangerSign::id)
                .contains("cannot-drink", "half-feeds")
                .doesNotContain("confused");
        assertThat(Guidance.dangerSigns(Age.ofYears(70)))
                .extracting(DangerSign::id)
                .contains("confused", "severe-chest-pain")
                .doesNotContain("half-feeds", "head-nodding");
        for (DangerSign sign : Guidance.allDangerSigns()) {
            for (int months = sign.fromMonths(); months <= sign.toMonths(); months++) {
                assertThat(sign.question(new Age(months)))
                        .as("%s at %d months", sign.id(), months)
                        .endsWith("?")
                        .hasSizeLessThan(130);
            }
        }
    }

    /** A baby says no sentence, names no pain and is not confused; nobody calls a grandmother a child. */
    @Test
    void theWordsFitTheAge() {
        assertThat(Guidance.dangerSigns(Age.ofMonths(5)))
                .extracting(s -> s.question(Age.ofMonths(5)))
                .noneMatch(q -> q.matches("(?i).*\\b(sentence|pain|confused|talk|person)\\b.*"))
                .anyMatch(q -> q.contains("limp") && q.contains("baby"));
        assertThat(Guidance.dangerSigns(Age.ofYears(3)))
                .extracting(s -> s.question(Age.ofYears(3)))
                .noneMatch(q -> q.matches("(?i).*\\b(sentence|pain|confused|baby|person)\\b.*"));
        assertThat(Guidance.dangerSigns(Age.ofYears(70)))
                .extracting(s -> s.question(Age.ofYears(70)))
                .noneMatch(q -> q.matches("(?i).*\\b(child|baby|feeds|nappies)\\b.*"))
                .anyMatch(q -> q.contains("sentence"));
    }

    /**
     * Heart failure that gets worse shows in weight, swelling and breath lying flat before it is heard. More than 2 kg in 3 days: European Society of Cardiology, guide for patients with heart failure, its
     * page on weight gain [P]; the rest is common practice [C].
     */
    @ParameterizedTest
    @CsvSource({"fluid-gain, European Society of Cardiology, P", "breathless-lying-flat, common practice, C"})
    void heartFailureIsAskedForWaterToo(String sign, String source, String mark) {
        Age age = Age.ofYears(78);
        Conditions heart = Conditions.of(Condition.HEART_FAILURE);
        assertThat(Guidance.dangerSigns(age, heart)).extracting(DangerSign::id).contains(sign);
        assertThat(Guidance.dangerSigns(age)).extracting(DangerSign::id).doesNotContain(sign);
        assertThat(Guidance.dangerSigns(age, Conditions.of(Condition.COPD)))
                .extracting(DangerSign::id)
                .doesNotContain(sign);

        Situation well = Baseline.of(age).with(heart);
        NextStep open = Guidance.decide(well);
        assertThat(open.outcome()).as("not asked yet").isEqualTo(Outcome.NEXT_TAKE);
        assertThat(open.missing())
                .anyMatch(m -> m.text().startsWith(Guidance.dangerSign(sign).question(age)));

        Situation asked = well.with(DangerAnswers.noneOf(age, heart));
        NextStep none = Guidance.decide(asked);
        assertThat(none.outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(none.wouldChange()).contains(Guidance.dangerSign(sign).question(age) + " Yes: be seen today.");

        NextStep there = Guidance.decide(well.with(DangerAnswers.noneOf(age, heart, List.of(sign))));
        assertThat(there.outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Baseline.cites(there, sign, source, mark)).isTrue();
    }

    @Test
    void aQuestionThatIsOpenIsNotANo() {
        Age age = Age.ofYears(4);
        DangerAnswers all = DangerAnswers.noneOf(age);
        for (String open : all.no()) {
            Set<String> rest = new java.util.TreeSet<>(all.no());
            rest.remove(open);
            NextStep step = Guidance.decide(Baseline.of(age).with(new DangerAnswers(Set.of(), rest)));
            assertThat(step.outcome()).as(open).isEqualTo(Outcome.NEXT_TAKE);
            assertThat(step.missing())
                    .anyMatch(m -> m.id().equals("danger-signs")
                            && m.text().startsWith(Guidance.dangerSign(open).question(age)));
        }
    }

    @Test
    void aSignThatIsNotKnownOrAnsweredBothWaysIsRefused() {
        assertThatThrownBy(() -> DangerAnswers.yes("blu"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("use one of blue,");
        assertThatThrownBy(() -> new DangerAnswers(Set.of("blue"), Set.of("blue")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("with yes and with no");
    }
}
