package lungwort.examine;

import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.sound.MeasuredSound;

/**
 * A measured sound in its place in the breath.
 *
 * @param sound what was measured
 * @param phase the phase that holds its middle
 * @param position where in that phase its middle lies, 0 (start) to 1 (end); NaN where the phase is unknown
 */
public record Evidence(MeasuredSound sound, BreathPhase phase, double position) {
    /** A sound in its place among the breaths of the same recording. */
    public static Evidence of(MeasuredSound sound, Breathing breathing) {
        double middle = (sound.startSeconds() + sound.endSeconds()) / 2;
        PhaseSpan span = breathing.phaseAt(middle);
        if (span == null || span.phase() == BreathPhase.UNKNOWN) {
            return new Evidence(sound, BreathPhase.UNKNOWN, Double.NaN);
        }
        double position = (middle - span.startSeconds()) / (span.endSeconds() - span.startSeconds());
        return new Evidence(sound, span.phase(), position);
    }
}
