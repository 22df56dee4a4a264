package lungwort.examine;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breathing;
import lungwort.classify.HeardEvent;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;

/**
 * What the pipeline returns for one recording.
 *
 * @param origin name of the recording for people
 * @param durationSeconds its length in seconds
 * @param source how it was stored
 * @param suggestion the verdict
 * @param probabilities calibrated probabilities
 * @param quality whether it could be judged
 * @param breathing breaths and respiratory rate
 * @param evidence measured sounds in order of time
 * @param events single sounds that the model hears, in order of time: where to listen
 * @param pauses stretches in which no breath was found, in order of time: to be asked about, whatever the suggestion
 * @param reasons in plain words, the measured facts that moved the suggestion most, strongest first
 * @param model name and version of the model
 */
public record Examination(
        String origin,
        double durationSeconds,
        SourceFormat source,
        Suggestion suggestion,
        Probabilities probabilities,
        Quality quality,
        Breathing breathing,
        List<Evidence> evidence,
        List<HeardEvent> events,
        List<BreathingPause> pauses,
        List<String> reasons,
        String model) {
    /** Said with every examination, on every screen, print and report. */
    public static final String CAUTION =
            "Lungwort suggests, it does not diagnose. The sound is one sign among several: a chest with no extra sound can still be a very ill one."
                    + " Danger signs, the person's own care plan, local guidance and licensed clinicians decide.";

    public Examination {
        evidence = List.copyOf(evidence);
        events = List.copyOf(events);
        pauses = List.copyOf(pauses);
        reasons = List.copyOf(reasons);
    }

    /** Without single sounds and a pause. */
    public Examination(
            String origin,
            double durationSeconds,
            SourceFormat source,
            Suggestion suggestion,
            Probabilities probabilities,
            Quality quality,
            Breathing breathing,
            List<Evidence> evidence,
            List<String> reasons,
            String model) {
        this(
                origin,
                durationSeconds,
                source,
                suggestion,
                probabilities,
                quality,
                breathing,
                evidence,
                List.of(),
                List.of(),
                reasons,
                model);
    }

    /** The same under another name: a file's may hold a person's. */
    public Examination titled(String title) {
        return new Examination(
                title,
                durationSeconds,
                source,
                suggestion,
                probabilities,
                quality,
                breathing,
                evidence,
                events,
                pauses,
                reasons,
                model);
    }

    /** True if nothing is told for a fault that another recording can mend: it is too poor, too noisy or too quiet, or has gaps. */
    public boolean recordAgain() {
        return suggestion == Suggestion.CANNOT_TELL && Findings.faulty(quality);
    }

    /** True if hardly any breath stands out: as where the chest piece lies badly, and in a chest that moves hardly any air. */
    public boolean hardlyAnyBreath() {
        return quality.has(QualityIssue.TOO_QUIET)
                || quality.has(QualityIssue.NO_BREATH)
                || quality.has(QualityIssue.MOSTLY_HEART);
    }

    /** Those of its reasons that ask to listen for crackles or a tone: something was measured that the suggestion does not go by. */
    public List<String> listenFor() {
        return reasons.stream().filter(ClearSounds::leftToTheListener).toList();
    }

    /** True if it names no extra sound, in a recording in which hardly a whole breath was found: a sound that comes with the breath had none to come with. */
    public boolean noneInHardlyABreath() {
        return suggestion.namesNone() && quality.has(QualityIssue.TOO_FEW_BREATHS);
    }

    /** True if it sounds unlike nearly all that the model learnt from: there the model can miss most extra sounds, also beside one that it names. */
    public boolean unlikeLearnt() {
        return suggestion == Suggestion.NONE_STANDS_OUT || reasons.contains(Findings.UNFAMILIAR);
    }

    /**
     * Whether not naming one sort of sound says that none was found. Not of a recording unlike nearly all that the model learnt from, of none in which hardly a whole breath was found, and of
     * crackles only where nothing measured is left to the listener.
     *
     * @param continuous true for continuous sounds, false for crackles
     */
    public boolean tellsNone(boolean continuous) {
        return quality.usable()
                && suggestion.tells()
                && !suggestion.names(continuous)
                && !unlikeLearnt()
                && !quality.has(QualityIssue.TOO_FEW_BREATHS)
                && (continuous || listenFor().isEmpty());
    }

    /**
     * Whether the number of its measured sounds of one sort says something: in a recording that was not refused, where some count, or where none counts and that says that none was found
     * ({@link #tellsNone}). Elsewhere a zero would read as if there were none.
     *
     * @param continuous true for continuous sounds, false for crackles
     */
    public boolean tellsNumber(boolean continuous) {
        boolean some = evidence.stream().anyMatch(e -> e.sound().kind().continuous() == continuous);
        return quality.usable() && (some || tellsNone(continuous));
    }

    /**
     * Whether the model's probability of one sort of sound says something: where the suggestion tells. In a recording unlike nearly all that the model learnt from it does so only of a sound that
     * is named: a low one would read as if there were none.
     *
     * @param continuous true for continuous sounds, false for crackles
     */
    public boolean tellsProbability(boolean continuous) {
        return suggestion.tells() && (suggestion.names(continuous) || !unlikeLearnt());
    }

    /** The breathing rate heard; none where none could be measured, and none across a stretch without a breath: it would be too slow, and hide that no breath came. */
    public Optional<Breathing.Rate> rateTold() {
        return pauses.isEmpty() ? Optional.ofNullable(breathing.rate()) : Optional.empty();
    }

    /** The longest pause; none where there is none. */
    public Optional<BreathingPause> longestPause() {
        return pauses.stream().max(Comparator.comparingDouble(BreathingPause::seconds));
    }

    /**
     * Calibrated probabilities, each in [0, 1].
     *
     * @param continuous that the recording holds a continuous extra sound
     * @param discontinuous that it holds a discontinuous one
     * @param poorQuality that a listener would call it too poor to judge
     */
    public record Probabilities(double continuous, double discontinuous, double poorQuality) {}
}
