package lungwort.quality;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds soft or muffled talk behind the breath: syllables, that is short rows of harmonics ({@link HarmonicComb}) whose pitch wanders, several within a second and a half. Syllables come three to
 * seven a second (common practice [C]); a wheeze or rhonchus comes once or twice a breath, keeps its pitch, and a wheeze has few harmonics. Limits were set on synthesised sound and hold on SPRSound's
 * training set, where it marks a tenth of the time or more in 3 of 1,772 good recordings, all with a voice in the spectrogram.
 */
final class TalkFinder {
    /** From here a row of harmonics is no chance, in dB: noise stays below in 99 frames of 100. */
    static final double MIN_SALIENCE_DB = 12;

    /** Harmonics that stand out, on the average over a syllable: two wheezes at once have fewer. */
    private static final double MIN_HARMONICS = 3;

    /** Pitch moves no more than this from frame to frame, in octaves. */
    private static final double MAX_STEP = 0.1;

    private static final double MIN_SYLLABLE_SECONDS = 0.075;
    private static final double MAX_SYLLABLE_SECONDS = 0.6;

    /** This many syllables... */
    private static final int SYLLABLES = 4;

    /** ... begin and end within this time. */
    private static final double WITHIN_SECONDS = 1.5;

    /** Spread of the logarithm of pitch over the syllables, in octaves: less is a machine or a rhonchus, more is chance. */
    private static final double MIN_SPREAD = 0.04;

    private static final double MAX_SPREAD = 0.45;

    private final List<FrameTrack.Frame> frames;

    private TalkFinder(List<FrameTrack.Frame> frames) {
        this.frames = frames;
    }

    /** Which frames lie in talk, syllables and what is between them. */
    static boolean[] find(List<FrameTrack.Frame> frames) {
        return new TalkFinder(frames).talk();
    }

    private boolean[] talk() {
        boolean[] talk = new boolean[frames.size()];
        List<int[]> syllables = syllables();
        for (int i = 0; i + SYLLABLES <= syllables.size(); i++) {
            List<int[]> few = syllables.subList(i, i + SYLLABLES);
            int from = few.get(0)[0];
            int to = few.get(SYLLABLES - 1)[1];
            double spread = spread(few);
            if ((to - from) * FrameTrack.HOP_SECONDS <= WITHIN_SECONDS && spread > MIN_SPREAD && spread < MAX_SPREAD) {
                java.util.Arrays.fill(talk, from, to, true);
            }
        }
        return talk;
    }

    /** Runs of voiced frames with an even pitch that last as long as a syllable; start inclusive, end exclusive. */
    private List<int[]> syllables() {
        List<int[]> syllables = new ArrayList<>();
        int start = 0;
        for (int t = 0; t <= frames.size(); t++) {
            boolean goesOn = t < frames.size() && t > start && voiced(t) && voiced(t - 1) && step(t) < MAX_STEP;
            if (!goesOn) {
                if (isSyllable(start, t)) {
                    syllables.add(new int[] {start, t});
                }
                start = t;
            }
        }
        return syllables;
    }

    private boolean voiced(int t) {
        return frames.get(t).row().salienceDb() > MIN_SALIENCE_DB;
    }

    private double step(int t) {
        return Math.abs(octave(t) - octave(t - 1));
    }

    private double octave(int t) {
        return Math.log(frames.get(t).row().pitchHz()) / Math.log(2);
    }

    private boolean isSyllable(int from, int to) {
        double seconds = (to - from) * FrameTrack.HOP_SECONDS;
        // A hair of slack: three hops of 25 ms are not quite 75 ms in floating point.
        if (seconds < MIN_SYLLABLE_SECONDS - 1e-9 || seconds > MAX_SYLLABLE_SECONDS + 1e-9) {
            return false;
        }
        double harmonics = 0;
        for (int t = from; t < to; t++) {
            harmonics += frames.get(t).row().harmonics();
        }
        return harmonics >= MIN_HARMONICS * (to - from);
    }

    private double spread(List<int[]> syllables) {
        int n = 0;
        double sum = 0;
        double squares = 0;
        for (int[] syllable : syllables) {
            for (int t = syllable[0]; t < syllable[1]; t++) {
                n++;
                sum += octave(t);
                squares += octave(t) * octave(t);
            }
        }
        return Math.sqrt(Math.max(0, squares / n - (sum / n) * (sum / n)));
    }
}
