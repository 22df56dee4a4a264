package lungwort.classify;

/**
 * An extra sound whose time listeners marked.
 *
 * @param startSeconds its start, in seconds
 * @param endSeconds its end, in seconds, after the start
 * @param continuous true if it is a continuous sound
 * @param discontinuous true if it is a discontinuous one; a sound may be both
 */
public record MarkedSound(double startSeconds, double endSeconds, boolean continuous, boolean discontinuous) {
    boolean is(boolean ofContinuous) {
        return ofContinuous ? continuous : discontinuous;
    }
}
