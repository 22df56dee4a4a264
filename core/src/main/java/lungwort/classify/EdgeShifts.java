package lungwort.classify;

import lungwort.feature.TimeSpan;

/**
 * How far the start and the end of a stretch are to be moved, so that it covers the sound that listeners marked there: numbers by boosted trees, as boxes are put right in the detection of objects in pictures
 * (bounding-box regression: Girshick et al., CVPR 2014).
 *
 * @param start trees that give the seconds to add to the start
 * @param end the same for the end
 */
record EdgeShifts(BoostedTrees start, BoostedTrees end) {
    /** No stretch is made shorter than this, in seconds. */
    static final double SHORTEST_SECONDS = 0.1;

    EdgeShifts {
        if (start.classes() != 2 || end.classes() != 2) {
            throw Numbers.damaged("its edges are moved by more than one number");
        }
    }

    /**
     * The stretch where it is to be.
     *
     * @param facts of it, those that the trees were grown on
     * @param seconds length of the recording, in which the moved stretch lies; not shorter than {@link #SHORTEST_SECONDS}
     */
    TimeSpan moved(TimeSpan span, float[] facts, double seconds) {
        double from = span.startSeconds() + start.scores(facts)[0];
        double to = span.endSeconds() + end.scores(facts)[0];
        double begin = Math.max(0, Math.min(seconds - SHORTEST_SECONDS, from));
        return new TimeSpan(begin, Math.max(begin + SHORTEST_SECONDS, Math.min(seconds, to)));
    }
}
