package lungwort.examine;

import lungwort.breath.BreathPhase;
import lungwort.sound.MeasuredSound;

/**
 * A measured sound in its place in the breath.
 *
 * @param sound what was measured
 * @param phase the phase that holds its middle
 * @param position where in that phase its middle lies, 0 (start) to 1 (end); NaN where the phase is unknown
 */
public record Evidence(MeasuredSound sound, BreathPhase phase, double position) {}
