package lungwort.quality;

import java.util.Arrays;
import java.util.List;

/**
 * Finds crying and whimpering: rows of harmonics at a child's pitch ({@link HarmonicComb#cry}) whose pitch rises and falls within one cry. A wheeze has fewer harmonics, a stridor keeps its pitch.
 * Common practice [C], checked on synthesised sound. Under a chest piece that lets nothing above 1 kHz through, a cry has too few harmonics to be told from a wheeze.
 */
final class CryFinder {
    private static final double MIN_SALIENCE_DB = 12;

    /** Harmonics that stand out, on the average over a cry; more than three have no room below 2 kHz. */
    private static final double MIN_HARMONICS = 2;

    private static final double MIN_SECONDS = 0.25;

    /** How far pitch moves within a cry (standard deviation), in octaves. */
    private static final double MIN_SPREAD = 0.05;

    private CryFinder() {}

    /** Which frames lie in a cry. */
    static boolean[] find(List<FrameTrack.Frame> frames) {
        boolean[] cry = new boolean[frames.size()];
        PitchTrack track =
                PitchTrack.of(frames.stream().map(FrameTrack.Frame::cry).toList(), MIN_SALIENCE_DB);
        for (PitchTrack.Run run : track.runs()) {
            if (run.seconds() >= MIN_SECONDS
                    && track.harmonics(run) >= MIN_HARMONICS
                    && track.spread(List.of(run)) >= MIN_SPREAD) {
                Arrays.fill(cry, run.from(), run.to(), true);
            }
        }
        return cry;
    }
}
