package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;

/** Every rule has its source and mark; nothing reassures; the cautions are always there. */
class WordingTest {
    private static final Pattern REASSURING = Pattern.compile(
            "(?i)\\b(all clear|nothing to worry|no need to|no cause for|is fine|are fine|healthy lungs|no problem|relax|good news|safe to|unlikely|rule out|ruled out|diagnosed)\\b");

    @Test
    void everyRuleHasASourceAMarkAndASentence() {
        Set<String> ids = new TreeSet<>();
        for (Rule rule : Guidance.book().rules()) {
            assertThat(ids.add(rule.id())).as(rule.id()).isTrue();
            assertThat(rule.sources())
                    .as(rule.id())
                    .isNotEmpty()
                    .allMatch(c -> Set.of("P", "S", "M", "C").contains(c.mark())
                            && !c.source().isBlank());
            assertThat(rule.text()).as(rule.id()).matches("[A-Z].*[.?)]");
            assertThat(rule.fromMonths()).as(rule.id()).isLessThanOrEqualTo(rule.toMonths());
        }
        assertThat(Guidance.allDangerSigns()).allMatch(s -> !s.sources().isEmpty() && s.fromMonths() <= s.toMonths());
    }

    @Test
    void nothingReassures() {
        List<String> texts = new ArrayList<>();
        Guidance.book().rules().forEach(r -> texts.addAll(List.of(r.text(), r.action())));
        Guidance.book().cautions().forEach(c -> texts.add(c.text()));
        Guidance.book().missing().forEach(m -> texts.add(m.text()));
        for (Outcome outcome : Outcome.values()) {
            texts.add(outcome.words());
            texts.add(outcome.meaning());
            texts.addAll(Actions.of(outcome, Baseline.of(Age.ofYears(5)), List.of(), List.of()));
        }
        assertThat(texts)
                .noneMatch(t ->
                        REASSURING.matcher(t.replace("not an all-clear", "")).find());
    }

    @Test
    void keepWatchingSaysThatItIsNoAllClearAndWhatWouldChangeIt() {
        NextStep step = Guidance.decide(Baseline.of(Age.ofMonths(20))
                .plus(SoundFinding.first(Sites.of("back-lower-left"), Suggestion.NONE_HEARD)));
        assertThat(step.outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(step.outcome().meaning()).contains("not an all-clear").contains("very ill with no extra sound");
        assertThat(step.reasons())
                .anyMatch(r -> r.rule().equals("none-heard") && r.text().contains("says little"));
        assertThat(step.wouldChange())
                .contains(
                        "SpO2 below 92 %: emergency.",
                        "Breathing rate above 70 breaths a minute: emergency.",
                        "Breathing rate 40 breaths a minute or more: be seen today.");
        assertThat(step.wouldChange()).anyMatch(w -> w.contains("you are worried"));
    }

    @Test
    void theCautionsAreAlwaysThere() {
        for (Situation s : List.of(
                Situation.of(Age.ofMonths(0)),
                Baseline.of(Age.ofYears(30)),
                Situation.of(Age.ofYears(30)).with(DangerAnswers.yes("blue")))) {
            assertThat(String.join(" ", Guidance.decide(s).cautions()))
                    .contains("does not diagnose")
                    .contains("care plan, local guidance and licensed clinicians decide")
                    .contains("If you are worried, get help");
        }
    }

    /** FDA, pulse oximeters [P]: a reading of 90 % may be a true 86 to 94 %; least accurate below 80 %; look at trends. */
    @Test
    void anOximeterReadingCarriesItsCaution() {
        assertThat(Guidance.decide(Baseline.of(Age.ofYears(30))).cautions())
                .anyMatch(c -> c.contains("true 86 to 94 %")
                        && c.contains("below 80 %")
                        && c.contains("trend")
                        && c.endsWith("FDA, pulse oximeters [P]."));
    }

    /** Fleming et al. 2011 [P]: asleep is slower than awake. */
    @Test
    void aRateTakenAsleepOrHeardCarriesItsCaution() {
        Situation s = Baseline.of(Age.ofMonths(30));
        assertThat(Guidance.decide(s.with(s.vitals().withAsleep(true))).cautions())
                .anyMatch(c -> c.contains("Asleep is slower"));
        assertThat(Guidance.decide(s.with(s.vitals().withRespiratoryRate(28, RateSource.HEARD)))
                        .cautions())
                .anyMatch(c -> c.contains("heard in a recording"));
        assertThat(Guidance.decide(s).cautions())
                .noneMatch(c -> c.contains("sleep") || c.contains("heard in a recording"));
    }
}
