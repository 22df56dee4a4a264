package lungwort.score;

import java.util.List;
import lungwort.audio.Recording;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.examine.Findings;
import lungwort.quality.Quality;
import lungwort.quality.QualityCheck;
import lungwort.signal.ChestViews;
import lungwort.sound.MeasuredSound;

/**
 * What an examination measures in a recording beside the model's features.
 *
 * @param quality of the recording
 * @param sounds measured in it, in order of time
 * @param phases of its breaths, in order of time
 * @param durationSeconds its length
 */
record Examined(Quality quality, List<MeasuredSound> sounds, List<PhaseSpan> phases, double durationSeconds) {
    /** Of a recording that was measured for training only: nothing stands against judging it, no sound was measured. */
    static final Examined NOT = new Examined(new Quality(true, List.of()), List.of(), List.of(), 0);

    static Examined of(Recording recording, ChestViews views) {
        Breathing breathing = BreathTracker.track(recording);
        return new Examined(
                QualityCheck.check(recording, breathing),
                Findings.sounds(views),
                breathing.breaths().stream()
                        .flatMap(breath -> breath.phases().stream())
                        .toList(),
                recording.durationSeconds());
    }
}
