package lungwort.guidance;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import lungwort.BadInput;
import lungwort.examine.Suggestion;
import org.jspecify.annotations.Nullable;

/**
 * What was found at one site: the suggestion of each take there.
 *
 * @param site where; null where nobody said
 * @param takes the takes in the order in which they were made, at least one
 * @param breathHeard true if breath sounds were clearly heard, false if hardly any breath could be heard though the recording is good, null where nobody can say
 * @param knownToClinician true if a clinician has heard this sound, calls it usual for this person, and said what to do
 * @param pauses stretches without a breath in the takes, in order
 */
public record SoundFinding(
        @Nullable Site site,
        List<Take> takes,
        @Nullable Boolean breathHeard,
        boolean knownToClinician,
        List<Pause> pauses) {
    /**
     * One take and its suggestion.
     *
     * @param reason why it was made
     * @param suggestion what the examination suggests
     * @param usable false if a better recording is wanted first: it was refused, or a fault that was not mended yet kept it from telling ({@link lungwort.examine.Examination#recordAgain}); a usable one can still be answered "cannot tell"
     * @param faint true if hardly any breath stands out in the recording, which a chest piece that lies badly does and a silent chest too
     */
    public record Take(TakeReason reason, Suggestion suggestion, boolean usable, boolean faint) {
        /** Not faint. */
        public Take(TakeReason reason, Suggestion suggestion, boolean usable) {
            this(reason, suggestion, usable, false);
        }

        /** Usable unless it cannot tell. */
        public Take(TakeReason reason, Suggestion suggestion) {
            this(reason, suggestion, suggestion != Suggestion.CANNOT_TELL);
        }
    }

    /**
     * A stretch in which no breath was found.
     *
     * @param seconds its length within the recording
     * @param real true if the breathing stopped by itself, false if it did not (held on purpose, too soft to be heard, chest piece lifted), null where nobody said
     */
    public record Pause(double seconds, @Nullable Boolean real) {}

    /** Whether an extra sound went away when the trade's next takes were made. */
    public enum Clearing {
        /** No take suggests an extra sound. */
        NO_EXTRA_SOUND,
        /** Heard, and some of the next takes are still to be made. */
        NOT_SETTLED,
        /** Heard first, and none heard in the last take that tells. It does not take back what was heard. */
        CLEARED,
        /** All of the next takes are made, and none shows that it went. */
        PERSISTS
    }

    /** @throws BadInput if there is no take */
    public SoundFinding {
        if (takes.isEmpty()) {
            throw new BadInput("sound finding: at least one take is needed.");
        }
        takes = List.copyOf(takes);
        pauses = List.copyOf(pauses);
    }

    /** Without a pause. */
    public SoundFinding(
            @Nullable Site site, List<Take> takes, @Nullable Boolean breathHeard, boolean knownToClinician) {
        this(site, takes, breathHeard, knownToClinician, List.of());
    }

    /** One first take. */
    public static SoundFinding first(@Nullable Site site, Suggestion suggestion) {
        return new SoundFinding(site, List.of(new Take(TakeReason.FIRST, suggestion)), null, false);
    }

    /** The same with one more take. */
    public SoundFinding then(TakeReason reason, Suggestion suggestion) {
        List<Take> more = new java.util.ArrayList<>(takes);
        more.add(new Take(reason, suggestion));
        return new SoundFinding(site, more, breathHeard, knownToClinician, pauses);
    }

    public SoundFinding withBreathHeard(@Nullable Boolean heard) {
        return new SoundFinding(site, takes, heard, knownToClinician, pauses);
    }

    public SoundFinding withKnownToClinician(boolean known) {
        return new SoundFinding(site, takes, breathHeard, known, pauses);
    }

    public SoundFinding withPauses(List<Pause> heard) {
        return new SoundFinding(site, takes, breathHeard, knownToClinician, heard);
    }

    /** True if any take suggests a continuous sound. */
    public boolean continuousHeard() {
        return takes.stream().anyMatch(t -> t.suggestion().continuous());
    }

    /** True if a continuous sound was suggested, and the trade asks for another take. */
    public boolean tonesToHearAgain() {
        return continuousHeard() && nextTake() != null;
    }

    /** True if any take suggests crackles. */
    public boolean discontinuousHeard() {
        return takes.stream().anyMatch(t -> t.suggestion().discontinuous());
    }

    /** True if any take suggests an extra sound. */
    public boolean extraSoundHeard() {
        return continuousHeard() || discontinuousHeard();
    }

    /** True if no take tells whether an extra sound is there, though some recording was good enough. */
    public boolean unsure() {
        return nothingToJudge() && takes.stream().anyMatch(Take::usable);
    }

    /** True if hardly any breath stands out in any take, and nobody has said whether breath is heard there: it may be a silent chest. */
    public boolean breathOpen() {
        return breathHeard == null && takes.stream().allMatch(Take::faint);
    }

    /** True if no take could be judged. */
    public boolean nothingToJudge() {
        return takes.stream().allMatch(t -> t.suggestion() == Suggestion.CANNOT_TELL);
    }

    /** True if some take was judged and none suggests an extra sound. */
    public boolean noneHeard() {
        return !extraSoundHeard() && !nothingToJudge();
    }

    /** True if of some take only this is said: that nothing stands out, in a recording unlike nearly all that the model learnt from. */
    public boolean unfamiliar() {
        return takes.stream().anyMatch(t -> t.suggestion() == Suggestion.NONE_STANDS_OUT);
    }

    /** Whether an extra sound cleared. Only none heard clears; takes that could not be judged, or in which nothing stands out, settle nothing. */
    public Clearing clearing() {
        if (!extraSoundHeard()) {
            return Clearing.NO_EXTRA_SOUND;
        }
        if (cleared()) {
            return Clearing.CLEARED;
        }
        return nextTake() == null ? Clearing.PERSISTS : Clearing.NOT_SETTLED;
    }

    /** Whether none was heard in the last take that tells. */
    private boolean cleared() {
        Suggestion last = Suggestion.CANNOT_TELL;
        for (Take take : takes) {
            last = take.suggestion().tells() ? take.suggestion() : last;
        }
        return last == Suggestion.NONE_HEARD;
    }

    /** The take that the trade asks for next at this site: null where there is none. One in which nothing stands out counts as made. */
    public @Nullable TakeReason nextTake() {
        if (unsure()) {
            boolean afterCough = takes.stream().anyMatch(t -> t.reason() == TakeReason.AFTER_COUGH && t.usable());
            return afterCough ? null : TakeReason.AFTER_COUGH;
        }
        if (nothingToJudge()) {
            return TakeReason.FIRST;
        }
        if (!extraSoundHeard() || cleared()) {
            return null;
        }
        Map<TakeReason, Boolean> judged = new EnumMap<>(TakeReason.class);
        takes.forEach(t -> judged.merge(t.reason(), t.suggestion() != Suggestion.CANNOT_TELL, Boolean::logicalOr));
        for (TakeReason reason : List.of(TakeReason.MOVED, TakeReason.AFTER_DEEP_BREATHS, TakeReason.AFTER_COUGH)) {
            if (!judged.getOrDefault(reason, false)) {
                return reason;
            }
        }
        return null;
    }
}
