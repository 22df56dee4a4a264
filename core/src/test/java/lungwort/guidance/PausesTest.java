package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import lungwort.examine.Suggestion;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A pause heard in a recording. NICE NG9 [S]: pauses in breathing are an emergency in bronchiolitis. American Academy of Pediatrics 2003 [S], as the table of definitions in Am Fam Physician
 * 2005;71:2301 gives it: apnoea lasts 20 s, or less with change of colour or tone. What is between is common practice [C].
 */
class PausesTest {
    private static NextStep step(int months, Suggestion suggestion, double seconds, @Nullable Boolean real) {
        SoundFinding sound = SoundFinding.first(Sites.of("back-lower-left"), suggestion)
                .withPauses(List.of(new SoundFinding.Pause(seconds, real)));
        return Guidance.decide(Baseline.of(new Age(months)).plus(sound));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 5, 23, 24, 120, 840})
    void breathingThatStoppedByItselfIsAnEmergencyAtAnyAge(int months) {
        for (Suggestion suggestion : Suggestion.values()) {
            NextStep step = step(months, suggestion, 7, true);
            assertThat(step.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
            assertThat(Baseline.cites(step, "pause-real", "NICE NG9", "S")).isTrue();
        }
    }

    @ParameterizedTest
    @CsvSource({
        "5, 6, NEXT_TAKE",
        "5, 9.9, NEXT_TAKE",
        "5, 10, BE_SEEN_TODAY",
        "23, 10, BE_SEEN_TODAY",
        "24, 10, NEXT_TAKE",
        "24, 19.9, NEXT_TAKE",
        "24, 20, BE_SEEN_TODAY",
        "840, 19.9, NEXT_TAKE",
        "840, 20, BE_SEEN_TODAY"
    })
    void aPauseOfWhichNobodySaidWhatItWasIsNeverPassedOver(int months, double seconds, Outcome outcome) {
        NextStep step = step(months, Suggestion.NONE_HEARD, seconds, null);

        assertThat(step.outcome()).isEqualTo(outcome);
        assertThat(step.missing()).anyMatch(m -> m.id().equals("pause") && m.needed());
        assertThat(Baseline.names(step, "pause-heard")).isTrue();
        assertThat(Baseline.names(step, "pause-of-20-seconds")).isEqualTo(seconds >= 20);
        assertThat(step.reasons()).noneMatch(r -> r.text().contains("{"));
    }

    @Test
    void itSaysHowLongAndWhatToWatchFor() {
        NextStep step = step(5, Suggestion.NONE_HEARD, 8.4, null);

        assertThat(step.reasons())
                .anyMatch(r -> r.text().startsWith("For about 8 s of a recording no breath was found"));
        assertThat(step.actions()).first().asString().startsWith("First watch the chest or belly for a full minute");
    }

    @Test
    void heldOnPurposeItChangesNothingAndStaysTold() {
        NextStep step = step(840, Suggestion.NONE_HEARD, 12, false);

        assertThat(step.outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(Baseline.names(step, "pause-explained")).isTrue();
        assertThat(step.missing()).noneMatch(m -> m.id().equals("pause"));
    }

    /** One that is explained explains no other. */
    @Test
    void theOpenOneOfTwoCounts() {
        SoundFinding sound = SoundFinding.first(Sites.of("back-lower-left"), Suggestion.NONE_HEARD)
                .withPauses(List.of(new SoundFinding.Pause(25, false), new SoundFinding.Pause(8, null)));
        NextStep step = Guidance.decide(Baseline.of(new Age(5)).plus(sound));

        assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(Baseline.names(step, "pause-of-20-seconds")).isFalse();
        assertThat(step.reasons())
                .anyMatch(r -> r.rule().equals("pause-explained") && r.text().contains("about 25 s"))
                .anyMatch(r -> r.rule().equals("pause-heard") && r.text().contains("about 8 s"));
    }

    @ParameterizedTest
    @EnumSource(Suggestion.class)
    void whereNoneWasHeardNothingIsSaidOfPauses(Suggestion suggestion) {
        NextStep step = Guidance.decide(
                Baseline.of(new Age(5)).plus(SoundFinding.first(Sites.of("back-lower-left"), suggestion)));

        assertThat(step.reasons()).noneMatch(r -> r.rule().startsWith("pause"));
        assertThat(step.missing()).noneMatch(m -> m.id().equals("pause"));
    }
}
