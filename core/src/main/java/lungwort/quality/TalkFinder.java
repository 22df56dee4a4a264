package lungwort.quality;

import java.util.Arrays;
import java.util.List;

/**
 * Finds soft or muffled talk behind the breath: syllables, that is short rows of harmonics ({@link HarmonicComb}) whose pitch wanders, several within a second and a half. Syllables come three to
 * seven a second (common practice [C]); a wheeze or rhonchus comes once or twice a breath, keeps its pitch, and a wheeze has few harmonics. Limits were set on synthesised sound and hold on SPRSound's
 * training set, where with the loud voices and cries a tenth of the time or more is marked in 6 of 1,772 good recordings; those looked at hold a voice.
 */
final class TalkFinder {
    /** From here a row of harmonics is no chance, in dB: noise stays below in 99 frames of 100. */
    static final double MIN_SALIENCE_DB = 12;

    /** Harmonics that stand out, on the average over a syllable: two wheezes at once have fewer. */
    static final double MIN_HARMONICS = 3;

    private static final double MIN_SYLLABLE_SECONDS = 0.075;
    private static final double MAX_SYLLABLE_SECONDS = 0.6;

    /** This many syllables... */
    private static final int SYLLABLES = 4;

    /** ... begin and end within this time. */
    private static final double WITHIN_SECONDS = 1.5;

    /** Spread of the logarithm of pitch over the syllables, in octaves: less is a machine or a rhonchus, more is chance. */
    private static final double MIN_SPREAD = 0.065;

    private static final double MAX_SPREAD = 0.45;

    private TalkFinder() {}

    /** Which frames lie in talk, syllables and what is between them. */
    static boolean[] find(List<FrameTrack.Frame> frames) {
        boolean[] talk = new boolean[frames.size()];
        PitchTrack track = PitchTrack.of(
                        frames.stream().map(FrameTrack.Frame::talk).toList(), MIN_SALIENCE_DB)
                .withoutSteady();
        List<PitchTrack.Run> syllables =
                track.runs().stream().filter(run -> isSyllable(track, run)).toList();
        for (int i = 0; i + SYLLABLES <= syllables.size(); i++) {
            List<PitchTrack.Run> few = syllables.subList(i, i + SYLLABLES);
            PitchTrack.Run all =
                    new PitchTrack.Run(few.get(0).from(), few.get(SYLLABLES - 1).to());
            double spread = track.spread(few);
            if (all.seconds() <= WITHIN_SECONDS && spread > MIN_SPREAD && spread < MAX_SPREAD) {
                Arrays.fill(talk, all.from(), all.to(), true);
            }
        }
        return talk;
    }

    private static boolean isSyllable(PitchTrack track, PitchTrack.Run run) {
        // A hair of slack: three hops of 25 ms are not quite 75 ms in floating point.
        return run.seconds() > MIN_SYLLABLE_SECONDS - 1e-9
                && run.seconds() < MAX_SYLLABLE_SECONDS + 1e-9
                && track.harmonics(run) >= MIN_HARMONICS;
    }
}
