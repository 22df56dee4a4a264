package lungwort.quality;

import java.util.ArrayList;
import java.util.List;

/**
 * Pitch over time where there is one.
 *
 * @param voiced whether a frame has a pitch; shape {@code [frames]}
 * @param octaves logarithm to base 2 of the pitch in Hz, where there is one
 * @param harmonics how many stand out
 */
@SuppressWarnings("ArrayRecordComponent") // on its way within one finder, never compared
record PitchTrack(boolean[] voiced, double[] octaves, int[] harmonics) {
    /** Pitch moves no more than this from frame to frame within one sound, in octaves. */
    private static final double MAX_STEP = 0.1;

    private static final double STEADY_SECONDS = 0.25;
    private static final double STEADY_SPREAD = 0.04;
    private static final double STEADY_GAP_SECONDS = 0.2;

    static PitchTrack of(List<HarmonicComb.Row> rows, double minSalienceDb) {
        int n = rows.size();
        PitchTrack track = new PitchTrack(new boolean[n], new double[n], new int[n]);
        for (int t = 0; t < n; t++) {
            HarmonicComb.Row row = rows.get(t);
            track.set(t, row.salienceDb() > minSalienceDb, row.pitchHz(), row.harmonics());
        }
        return track;
    }

    void set(int t, boolean isVoiced, double pitchHz, int standing) {
        voiced[t] = isVoiced;
        octaves[t] = Math.log(pitchHz) / Math.log(2);
        harmonics[t] = standing;
    }

    /** Voiced stretches in which pitch does not jump. */
    List<Run> runs() {
        List<Run> runs = new ArrayList<>();
        int start = 0;
        for (int t = 0; t <= voiced.length; t++) {
            boolean goesOn = t < voiced.length
                    && t > start
                    && voiced[t]
                    && voiced[t - 1]
                    && Math.abs(octaves[t] - octaves[t - 1]) < MAX_STEP;
            if (!goesOn) {
                if (t > start && voiced[start]) {
                    runs.add(new Run(start, t));
                }
                start = t;
            }
        }
        return runs;
    }

    /**
     * The same without stretches of {@value #STEADY_SECONDS} s and more that keep their pitch, short gaps in them bridged: a voice does not, a rhonchus does.
     */
    PitchTrack withoutSteady() {
        PitchTrack rest = new PitchTrack(voiced.clone(), octaves, harmonics);
        List<Run> runs = runs();
        int first = 0;
        for (int i = 1; i <= runs.size(); i++) {
            if (i == runs.size() || !follows(runs.get(i - 1), runs.get(i))) {
                List<Run> group = runs.subList(first, i);
                Run all = new Run(group.get(0).from, group.get(group.size() - 1).to);
                if (all.seconds() >= STEADY_SECONDS && spread(group) < STEADY_SPREAD) {
                    java.util.Arrays.fill(rest.voiced, all.from, all.to, false);
                }
                first = i;
            }
        }
        return rest;
    }

    private boolean follows(Run before, Run after) {
        return (after.from - before.to) * FrameTrack.HOP_SECONDS <= STEADY_GAP_SECONDS
                && Math.abs(octaves[after.from] - octaves[before.to - 1]) < MAX_STEP / 2;
    }

    /** Mean number of harmonics that stand out in a run. */
    double harmonics(Run run) {
        double sum = 0;
        for (int t = run.from; t < run.to; t++) {
            sum += harmonics[t];
        }
        return sum / (run.to - run.from);
    }

    /** Standard deviation of pitch over some runs together, in octaves. */
    double spread(List<Run> runs) {
        int n = 0;
        double sum = 0;
        double squares = 0;
        for (Run run : runs) {
            for (int t = run.from; t < run.to; t++) {
                n++;
                sum += octaves[t];
                squares += octaves[t] * octaves[t];
            }
        }
        return Math.sqrt(Math.max(0, squares / n - (sum / n) * (sum / n)));
    }

    /**
     * Frames of one sound.
     *
     * @param from first frame
     * @param to frame after the last
     */
    record Run(int from, int to) {
        double seconds() {
            return (to - from) * FrameTrack.HOP_SECONDS;
        }
    }
}
