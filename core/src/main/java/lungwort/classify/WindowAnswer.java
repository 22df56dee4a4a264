package lungwort.classify;

/**
 * What two models say of one window: the one that learnt from windows of fixed length, and the one that learnt from marked segments, whose finer classes help although
 * its segments began and ended with a sound.
 *
 * @param asWindow shape {@code [5]}, in the order of {@link RecordingClass}
 * @param asSegment shape {@code [7]}, in the order of {@link SegmentClass}
 */
@SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
public record WindowAnswer(double[] asWindow, double[] asSegment) {
    /** Probability of a continuous extra sound in the window. */
    public double continuous() {
        return RecordingClass.continuous(asWindow);
    }

    /** Probability of a discontinuous extra sound in the window. */
    public double discontinuous() {
        return RecordingClass.discontinuous(asWindow);
    }
}
