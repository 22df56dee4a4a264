package lungwort.examine;

import java.util.List;
import lungwort.audio.Recording;
import lungwort.breath.BandLevelMeter;
import lungwort.breath.BandLevels;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.classify.Judge;
import lungwort.classify.Judgement;
import lungwort.classify.SoundModel;
import lungwort.quality.Quality;
import lungwort.quality.QualityCheck;
import lungwort.quality.QualityMeasures;
import lungwort.signal.ChestViews;
import lungwort.sound.BreathAgreement;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundSearch;

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
        SoundSearch search = SoundSearch.in(ChestViews.of(recording));
        BandLevels levels = BandLevelMeter.of(recording);
        Breathing breathing = BreathTracker.track(levels);
        QualityMeasures measures = QualityCheck.measure(recording, breathing);
        List<MeasuredSound> sounds = search.sounds();
        Judgement judgement = judge.judge(search, breathing, sounds, measures.relative());
        Quality quality = QualityCheck.judge(measures);
        BreathAgreement agreement = BreathAgreement.of(search.bursts(), breathing);
        Findings findings = Findings.of(quality, judgement, sounds, agreement, recording.durationSeconds());
        return new Examination(
                recording.origin(),
                recording.durationSeconds(),
                recording.source(),
                findings.suggestion(),
                new Examination.Probabilities(
                        judgement.continuous(), judgement.discontinuous(), judgement.poorQuality()),
                PoorWords.told(
                        findings.quality(),
                        QualityMeasures.relativeNames(),
                        model.poorContributions(measures.relative())),
                breathing,
                placed(findings.evidence(), breathing),
                findings.events(),
                BreathingPauses.in(recording, levels, quality),
                findings.reasons(),
                model.name());
    }

    private static List<Evidence> placed(List<MeasuredSound> sounds, Breathing breathing) {
        return sounds.stream().map(sound -> Evidence.of(sound, breathing)).toList();
    }
}
