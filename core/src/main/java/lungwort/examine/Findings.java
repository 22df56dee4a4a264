package lungwort.examine;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lungwort.classify.HeardEvent;
import lungwort.classify.Judgement;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.sound.BreathAgreement;
import lungwort.sound.MeasuredSound;

/**
 * What follows from a recording's quality, the model's judgement and the measured sounds. {@link Examiner} answers by it, and whoever scores answers scores the same.
 *
 * @param quality whether it could be judged: the rules' verdict, and {@link QualityIssue#UNCLEAR} where only what was learnt speaks against it
 * @param suggestion what is suggested
 * @param evidence the measured sounds that count, in order of time
 * @param events the single sounds that the model hears, in order of time: those that the suggestion names, the probable ones where it cannot tell though the recording is not poor, and none beside "none heard"
 * @param reasons that the recording is unlike what was learnt from, why the suggestion goes beyond the model's, then the model's own
 */
public record Findings(
        Quality quality,
        Suggestion suggestion,
        List<MeasuredSound> evidence,
        List<HeardEvent> events,
        List<String> reasons) {
    /** A share of the recordings learnt from lies beyond the limit too, and noise or a loose contact can do it: no device is named. */
    static final String UNFAMILIAR =
            "On the whole this recording sounds unlike nearly all that the model learnt from, as through another kind of device: there it can miss most extra sounds, crackles above all.";

    /** This reads as reassurance, which the model cannot give in a recording that it does not know the like of, nor of the other kind beside one that it names. */
    private static final String FOUND_NOTHING = "The learnt model finds nothing like ";

    public Findings {
        evidence = List.copyOf(evidence);
        events = List.copyOf(events);
        reasons = List.copyOf(reasons);
    }

    /**
     * @param quality of the recording
     * @param judgement of the recording
     * @param sounds {@link lungwort.sound.SoundSearch#sounds} of the recording
     * @param agreement of its breaths about where bursts stand
     * @param durationSeconds its length
     */
    public static Findings of(
            Quality quality,
            Judgement judgement,
            List<MeasuredSound> sounds,
            BreathAgreement agreement,
            double durationSeconds) {
        ClearSounds clear = ClearSounds.in(sounds, agreement, durationSeconds, quality.has(QualityIssue.CLIPPED));
        boolean measuredAndHeard = sounds.stream().anyMatch(sound -> Support.heard(sound, judgement));
        Suggestion suggestion = suggestion(quality, judgement, clear, measuredAndHeard);
        List<HeardEvent> told = told(suggestion, judgement, quality, durationSeconds);
        List<HeardEvent> named =
                told.stream().filter(e -> suggestion.names(e.continuous())).toList();
        List<String> reasons = reasons(judgement, clear);
        if (suggestion == Suggestion.CANNOT_TELL && measuredAndHeard && !poor(quality, judgement)) {
            reasons.add(ClearSounds.MEASURED_AND_HEARD);
        }
        if (suggestion.namesNone() && (!judgement.familiar() || quality.has(QualityIssue.TOO_FEW_BREATHS))) {
            reasons.addAll(ClearSounds.toneLeftToTheListener(sounds));
        }
        return new Findings(
                explained(quality, judgement),
                suggestion,
                Support.supported(sounds, judgement, clear, named),
                told,
                reasons);
    }

    /** Beside a suggestion that names no such sound they would contradict it; in a poor recording they may be anything. */
    private static List<HeardEvent> told(
            Suggestion suggestion, Judgement judgement, Quality quality, double durationSeconds) {
        boolean unsure = suggestion == Suggestion.CANNOT_TELL && !poor(quality, judgement);
        return judgement.events().where(suggestion.names(true), suggestion.names(false)).stream()
                .filter(e -> unsure || suggestion.names(e.continuous()))
                .filter(e -> e.startSeconds() < durationSeconds)
                .map(e -> e.endSeconds() <= durationSeconds
                        ? e
                        : new HeardEvent(e.startSeconds(), durationSeconds, e.continuous(), e.probability()))
                .toList();
    }

    private static List<String> reasons(Judgement judgement, ClearSounds clear) {
        List<String> reasons = new ArrayList<>();
        if (!judgement.familiar()) {
            reasons.add(UNFAMILIAR);
        }
        reasons.addAll(clear.reasons(judgement.heardContinuous(), judgement.heardDiscontinuous()));
        judgement.reasons().stream()
                .filter(reason -> judgement.familiar() || !reason.startsWith(FOUND_NOTHING))
                .forEach(reasons::add);
        return reasons;
    }

    /** Nobody is refused without being told what to do. */
    private static Quality explained(Quality quality, Judgement judgement) {
        if (!judgement.poor() || !quality.usable()) {
            return quality;
        }
        List<Quality.Finding> findings = new ArrayList<>();
        String detail = String.format(Locale.ROOT, "probability %.0f %%", 100 * judgement.poorQuality());
        findings.add(new Quality.Finding(QualityIssue.UNCLEAR, true, detail));
        findings.addAll(quality.findings());
        return new Quality(false, findings, quality.events());
    }

    /**
     * @param measuredAndHeard true if a sound was measured where the model, too, hears one: of 1,135 recordings of SPRSound's training set that would have had the answer "none heard" 38 are such, and 13 of
     *     those hold an extra sound, 78 of the 1,097 others (by folds, with models that had not learnt from them)
     */
    private static Suggestion suggestion(
            Quality quality, Judgement judgement, ClearSounds clear, boolean measuredAndHeard) {
        boolean measured = clear.continuous() || clear.discontinuous();
        boolean doubt = judgement.cannotTell() || clear.leavesDoubt() || measuredAndHeard;
        if (poor(quality, judgement) || doubt && !measured && !heard(judgement)) {
            return Suggestion.CANNOT_TELL;
        }
        boolean discontinuous = judgement.heardDiscontinuous() || clear.discontinuous();
        if (judgement.heardContinuous() || clear.continuous()) {
            return discontinuous ? Suggestion.BOTH : Suggestion.CONTINUOUS;
        }
        if (discontinuous) {
            return Suggestion.DISCONTINUOUS;
        }
        if (missing(quality)) {
            return Suggestion.CANNOT_TELL;
        }
        return judgement.familiar() ? Suggestion.NONE_HEARD : Suggestion.NONE_STANDS_OUT;
    }

    /** What was not recorded cannot have been heard. */
    private static boolean missing(Quality quality) {
        return quality.has(QualityIssue.DROPOUTS) || quality.has(QualityIssue.TOO_QUIET);
    }

    /** There even clear sounds suggest nothing: speech and music are full of clear tones. */
    private static boolean poor(Quality quality, Judgement judgement) {
        return hidden(quality) || judgement.poor();
    }

    private static boolean hidden(Quality quality) {
        return !quality.usable() || quality.has(QualityIssue.NOISY);
    }

    /** Whether the recording itself can keep sounds from being told: too poor, too noisy or too quiet, or with gaps. */
    static boolean faulty(Quality quality) {
        return hidden(quality) || missing(quality);
    }

    private static boolean heard(Judgement judgement) {
        return judgement.heardContinuous() || judgement.heardDiscontinuous();
    }
}
