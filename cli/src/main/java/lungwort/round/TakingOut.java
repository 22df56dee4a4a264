package lungwort.round;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Eraser;
import lungwort.diary.Round;
import lungwort.diary.Take;

/**
 * Takes out of a round what was put in by mistake: at a wrong place, of somebody else, the wrong file. What the round says and asks for is worked out anew from the takes that are left.
 *
 * <p>Only the last listen of a place can go. Later ones were made, and judged, beside the earlier ones: without the take in which an extra sound was suggested, "none heard" after a cough would stand there
 * as if nothing had ever been heard.
 */
public final class TakingOut {
    private static final String FINISHED =
            "The take at %s stood in this round when it was finished, and what a clinician may have been shown is not changed afterwards; write a note that says what is wrong with it.";
    private static final String NOT_THE_LAST =
            "Of several takes at one place only the last can be taken out, since it was judged beside those before it: at %s that is %s (%s); take that one out first.";
    private static final String STOPPED =
            "Of the take at %s it was said that the breathing stopped by itself, and that danger sign would go with it; where it is true, answer the danger sign of pauses in breathing with yes, then take back what was said of the take, and take it out.";

    private final Diary diary;

    TakingOut(Diary diary) {
        this.diary = diary;
    }

    /** Why a take has to stay in its round, as a sentence; empty if it may be taken out, once nothing was said of it that is a danger sign. */
    public Optional<String> stays(Take take) {
        return inRound(diary.rounds().get(take.roundId())).stays(take);
    }

    /** What decides of the takes of a round which have to stay, read once for all of them. */
    public InRound inRound(Round round) {
        return new InRound(
                round, diary.rounds().lastFinished(round.id()), diary.takes().ofRound(round.id()));
    }

    /**
     * A round in which takes stay or may go.
     *
     * @param lastFinished when it was last finished, even if it is open again since then
     * @param takes all of them, oldest first
     */
    public record InRound(Round round, Optional<Instant> lastFinished, List<Take> takes) {
        /** As {@link TakingOut#stays}. */
        public Optional<String> stays(Take take) {
            if (finishedWith(take)) {
                return Optional.of(FINISHED.formatted(take.site().words()));
            }
            List<Take> here =
                    takes.stream().filter(t -> t.site().equals(take.site())).toList();
            Take last = here.get(here.size() - 1);
            return last.id().equals(take.id())
                    ? Optional.empty()
                    : Optional.of(NOT_THE_LAST.formatted(
                            take.site().words(), last.reason().id(), last.fileName()));
        }

        private boolean finishedWith(Take take) {
            return !round.open()
                    || lastFinished
                            .filter(at -> !take.recordedAt().toInstant().isAfter(at))
                            .isPresent();
        }
    }

    /** What goes with a take and what that means, in sentences for whoever is asked whether it shall go. */
    public static String whatGoes(Take take) {
        return "Its recording in this diary is deleted for good, and what it suggests counts no longer%s. Take it out only if it does not belong there: a sound that is unwelcome stays."
                .formatted(
                        Boolean.FALSE.equals(take.breathHeard())
                                ? "; that hardly any breath was heard there goes with it"
                                : "");
    }

    /**
     * Refuses to take out a take that has to stay, so that nobody is asked in vain.
     *
     * @throws BadInput if it has to
     */
    public void refuse(Take take) {
        stays(take).ifPresent(sentence -> {
            throw new BadInput(sentence);
        });
        if (take.stoppedByItself()) {
            throw new BadInput(STOPPED.formatted(take.site().words()));
        }
    }

    /**
     * Takes a take out of its round, for good. Its recording goes with it, unless another take of the diary holds the same.
     *
     * @throws BadInput if the round was finished with it, a later take at the same place stands beside it, or a danger sign was said of it: then nothing is changed
     */
    public Eraser.Erased takeOut(UUID takeId) {
        return diary.eraser().takeOut(takeId, () -> refuse(diary.takes().get(takeId)));
    }
}
