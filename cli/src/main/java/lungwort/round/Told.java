package lungwort.round;

import lungwort.examine.Examination;

/**
 * Which numbers of a take say something. Elsewhere a zero would read as if there were no such sound: beside another take, as if it had gone, or were on one side only.
 *
 * @param continuous true for its continuous sounds
 * @param crackles true for its crackles
 */
public record Told(boolean continuous, boolean crackles) {
    /** Of an examination. */
    public static Told of(Examination examination) {
        return new Told(examination.tellsNumber(true), examination.tellsNumber(false));
    }
}
