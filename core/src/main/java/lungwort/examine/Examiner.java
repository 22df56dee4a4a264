package lungwort.examine;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.breath.BreathPhase;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.classify.Judge;
import lungwort.classify.Judgement;
import lungwort.classify.SoundModel;
import lungwort.quality.Quality;
import lungwort.quality.QualityCheck;
import lungwort.quality.QualityIssue;
import lungwort.signal.ChestViews;
import lungwort.sound.ContinuousSoundFinder;
import lungwort.sound.CrackleFinder;
import lungwort.sound.MeasuredSound;

/** The facade: a recording in, an examination out. Immutable; one examiner may serve many threads. */
public final class Examiner {
    private final SoundModel model;
    private final Judge judge;

    /** @param model what the recordings are judged by */
    public Examiner(SoundModel model) {
        this.model = model;
        this.judge = new Judge(model);
    }

    /**
     * Examines one recording. The same recording and model always give the same examination.
     *
     * @param recording of any length, also empty or silent: what cannot be judged is answered with {@link Suggestion#CANNOT_TELL} and the reason
     */
    public Examination examine(Recording recording) {
        ChestViews views = ChestViews.of(recording);
        Breathing breathing = BreathTracker.track(recording);
        Quality quality = QualityCheck.check(recording, breathing);
        List<MeasuredSound> sounds = sounds(views);
        Judgement judgement = judge.judge(views, sounds);
        ClearSounds clear = ClearSounds.in(sounds, recording.durationSeconds());
        List<String> reasons =
                new ArrayList<>(clear.reasons(judgement.heardContinuous(), judgement.heardDiscontinuous()));
        reasons.addAll(judgement.reasons());
        return new Examination(
                recording.origin(),
                recording.durationSeconds(),
                recording.source(),
                suggestion(quality, judgement, clear),
                new Examination.Probabilities(
                        judgement.continuous(), judgement.discontinuous(), judgement.poorQuality()),
                quality,
                breathing,
                placed(Support.supported(sounds, judgement, clear), breathing),
                reasons,
                model.name());
    }

    private static List<MeasuredSound> sounds(ChestViews views) {
        List<MeasuredSound> sounds = new ArrayList<>(ContinuousSoundFinder.find(views));
        sounds.addAll(CrackleFinder.find(views));
        sounds.sort(Comparator.comparingDouble(MeasuredSound::startSeconds));
        return sounds;
    }

    private static Suggestion suggestion(Quality quality, Judgement judgement, ClearSounds clear) {
        boolean measured = clear.continuous() || clear.discontinuous();
        // In a poor recording even clear sounds suggest nothing: speech and music are full of clear tones.
        boolean poor =
                !quality.usable() || quality.has(QualityIssue.NOISY) || judgement.poorQuality() >= Judge.POOR_FROM;
        if (poor || judgement.cannotTell() && !measured) {
            return Suggestion.CANNOT_TELL;
        }
        boolean discontinuous = judgement.heardDiscontinuous() || clear.discontinuous();
        if (judgement.heardContinuous() || clear.continuous()) {
            return discontinuous ? Suggestion.BOTH : Suggestion.CONTINUOUS;
        }
        if (discontinuous) {
            return Suggestion.DISCONTINUOUS;
        }
        // What was not recorded cannot have been heard.
        boolean missing = quality.has(QualityIssue.DROPOUTS) || quality.has(QualityIssue.TOO_QUIET);
        return missing ? Suggestion.CANNOT_TELL : Suggestion.NONE_HEARD;
    }

    private static List<Evidence> placed(List<MeasuredSound> sounds, Breathing breathing) {
        return sounds.stream().map(sound -> place(sound, breathing)).toList();
    }

    private static Evidence place(MeasuredSound sound, Breathing breathing) {
        double middle = (sound.startSeconds() + sound.endSeconds()) / 2;
        PhaseSpan span = breathing.phaseAt(middle);
        if (span == null || span.phase() == BreathPhase.UNKNOWN) {
            return new Evidence(sound, BreathPhase.UNKNOWN, Double.NaN);
        }
        double position = (middle - span.startSeconds()) / (span.endSeconds() - span.startSeconds());
        return new Evidence(sound, span.phase(), position);
    }
}
