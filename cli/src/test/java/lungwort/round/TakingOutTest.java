package lungwort.round;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.NewTake;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Outcome;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TakingOutTest {
    private static final Site LEFT = Sites.of("back-lower-left");
    private static final Site RIGHT = Sites.of("back-lower-right");

    @TempDir
    Path temp;

    private final Examples.MovingClock clock = new Examples.MovingClock();
    private Diary diary;
    private RoundService service;
    private Round round;

    @BeforeEach
    void startARound() {
        diary = Diary.open(temp.resolve("diary"), clock);
        service = Examples.service(diary);
        round = service.start(Examples.person(diary, "Mia"));
    }

    @AfterEach
    void close() {
        diary.close();
    }

    private Take add(Site site, TakeReason reason, String sound) {
        clock.plusSeconds(60);
        return service.add(new NewTake(round.id(), site, reason, "take.wav"), sound.getBytes(StandardCharsets.UTF_8));
    }

    private void refused(Take take, String sentence) {
        var before = diary.takes().ofRound(take.roundId());
        assertThatThrownBy(() -> service.takingOut().takeOut(take.id()))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(sentence);
        assertThat(diary.takes().ofRound(take.roundId()))
                .as("nothing was changed")
                .isEqualTo(before);
        assertThat(diary.recordings().isWhole(take.recordingSha256())).isTrue();
    }

    @Test
    void whatIsAskedForAndSaidIsWhatItWasBeforeTheTake() {
        diary.rounds()
                .change(round.with(DangerAnswers.noneOf(service.view(round.id()).age())));
        add(LEFT, TakeReason.FIRST, "wheezes 0");
        RoundView before = service.view(round.id());
        Take wrong = add(RIGHT, TakeReason.FIRST, "wheezes 3");
        assertThat(service.view(round.id()).nextStep()).isNotEqualTo(before.nextStep());

        service.takingOut().takeOut(wrong.id());

        assertThat(service.view(round.id())).isEqualTo(before);
        assertThat(diary.recordings().path(wrong.recordingSha256())).doesNotExist();
        add(LEFT, TakeReason.AFTER_COUGH, "wheezes 3");
    }

    /** "None heard" after a cough must not stand there as if no wheeze had ever been heard. */
    @Test
    void onlyTheLastListenOfAPlaceGoes() {
        Take first = add(LEFT, TakeReason.FIRST, "wheezes 2");
        Take cough = add(LEFT, TakeReason.AFTER_COUGH, "wheezes 0");
        add(RIGHT, TakeReason.FIRST, "wheezes 1");

        refused(first, "at back, lower, left that is after-cough (take.wav); take that one out first.");

        service.takingOut().takeOut(cough.id());
        assertThat(service.view(round.id()).at(LEFT).orElseThrow().takes()).containsExactly(first);
        assertThat(service.view(round.id()).asked())
                .as("what had seemed to clear is asked for again")
                .extracting(Asked::site)
                .isNotNull();
        service.takingOut().takeOut(first.id());
        assertThat(service.view(round.id()).at(LEFT)).isEmpty();
    }

    /** What a clinician was shown is not changed afterwards, also not where the round was opened again since. */
    @Test
    void aTakeThatARoundWasFinishedWithStays() {
        Take shown = add(LEFT, TakeReason.FIRST, "wheezes 2");
        clock.plusSeconds(60);
        service.finish(round.id());
        refused(shown, "is not changed afterwards; write a note that says what is wrong with it.");

        service.change(round.id(), now -> now.with(DangerAnswers.yes("blue")));
        assertThat(diary.rounds().get(round.id()).open()).isTrue();
        refused(shown, "is not changed afterwards");

        Take later = add(RIGHT, TakeReason.FIRST, "wheezes 1");
        service.takingOut().takeOut(later.id());
        assertThat(diary.takes().ofRound(round.id())).containsExactly(shown);
    }

    /** A danger sign is taken back by who said it, not by the way. */
    @Test
    void aTakeOfWhichADangerSignWasSaidStaysUntilThatIsTakenBack() {
        Take take = add(LEFT, TakeReason.FIRST, "pause 12");
        diary.takes().sayBreathingStopped(take.id(), true);
        assertThat(service.view(round.id()).nextStep().outcome()).isEqualTo(Outcome.EMERGENCY_NOW);

        refused(diary.takes().get(take.id()), "it was said that the breathing stopped by itself");

        diary.takes().sayBreathingStopped(take.id(), null);
        service.takingOut().takeOut(take.id());
        assertThat(diary.takes().ofRound(round.id())).isEmpty();
    }

    @Test
    void theRecordingStaysWhereAnotherRoundHoldsIt() {
        Take here = add(LEFT, TakeReason.FIRST, "wheezes 2");
        Round noors = service.start(Examples.person(diary, "Noor"));
        Take there = service.add(
                new NewTake(noors.id(), LEFT, TakeReason.FIRST, "same.wav"),
                "wheezes 2".getBytes(StandardCharsets.UTF_8));

        assertThat(service.takingOut().takeOut(here.id()).recordings()).isZero();

        assertThat(diary.takes().get(there.id())).isEqualTo(there);
        assertThat(diary.recordings().isWhole(there.recordingSha256())).isTrue();
    }

    @Test
    void whatWasSaidOfTheBreathIsNamedAmongWhatGoes() {
        Take silent = service.add(
                new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav", false, false),
                "wheezes 0".getBytes(StandardCharsets.UTF_8));

        assertThat(TakingOut.whatGoes(silent)).contains("hardly any breath was heard there goes with it");
        assertThat(TakingOut.whatGoes(add(RIGHT, TakeReason.FIRST, "wheezes 1")))
                .contains("deleted for good")
                .doesNotContain("hardly any breath");
    }

    @Test
    void whatIsNotThereIsASentence() {
        assertThatThrownBy(() -> service.takingOut().takeOut(UUID.randomUUID()))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("There is no take");
    }
}
