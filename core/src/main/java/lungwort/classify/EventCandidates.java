package lungwort.classify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;

/**
 * Stretches of a recording that might be one extra sound each: runs of the net's frames above one of several levels, for either kind, and measured tones, alone or together with those that follow closely. Many overlap;
 * {@link EventModel} chooses among them. Of the sounds marked in SPRSound's training set 82 % of the continuous ones and 76 % of the discontinuous ones have a candidate that shares at least half of what
 * either covers (scratch count by folds).
 */
final class EventCandidates {
    /** Logits that runs of frames lie above: the higher, the shorter the run. */
    private static final float[] LEVELS = {-3, -2, -1, 0, 1};

    /** Tones no further apart than this are one, in seconds. */
    private static final double JOIN_SECONDS = 0.1;

    /** Tones further apart than this are never of one sound, in seconds. */
    private static final double GAP_SECONDS = 0.5;

    /** Most joined tones in one candidate. */
    private static final int MOST_TONES = 4;

    /** Added to tones on either side, in seconds: listeners mark a little more than what stands out. */
    private static final double EDGE_SECONDS = 0.08;

    private EventCandidates() {}

    /**
     * @param frames {@link NetLook#frames}
     * @param sounds measured in the recording
     * @return in order of start, then end; none twice
     */
    static List<TimeSpan> of(float[][] frames, List<MeasuredSound> sounds) {
        TreeSet<TimeSpan> spans = new TreeSet<>(
                Comparator.comparingDouble(TimeSpan::startSeconds).thenComparingDouble(TimeSpan::endSeconds));
        for (float[] kind : frames) {
            for (float level : LEVELS) {
                addRuns(spans, kind, level);
            }
        }
        addTones(spans, joined(sounds));
        return List.copyOf(spans);
    }

    private static void addRuns(TreeSet<TimeSpan> spans, float[] frames, float level) {
        int from = -1;
        for (int f = 0; f <= frames.length; f++) {
            boolean above = f < frames.length && frames[f] > level;
            if (above && from < 0) {
                from = f;
            } else if (!above && from >= 0) {
                spans.add(new TimeSpan(from * MelImage.HOP_SECONDS, f * MelImage.HOP_SECONDS));
                from = -1;
            }
        }
    }

    /** Tones in order of time, those that touch nearly or overlap as one. */
    private static List<TimeSpan> joined(List<MeasuredSound> sounds) {
        List<TimeSpan> joined = new ArrayList<>();
        List<MeasuredSound> tones = sounds.stream()
                .filter(sound -> sound.kind().continuous())
                .sorted(Comparator.comparingDouble(MeasuredSound::startSeconds))
                .toList();
        for (MeasuredSound tone : tones) {
            int last = joined.size() - 1;
            if (last >= 0 && tone.startSeconds() <= joined.get(last).endSeconds() + JOIN_SECONDS) {
                TimeSpan before = joined.get(last);
                joined.set(last, new TimeSpan(before.startSeconds(), Math.max(before.endSeconds(), tone.endSeconds())));
            } else {
                joined.add(new TimeSpan(tone.startSeconds(), tone.endSeconds()));
            }
        }
        return joined;
    }

    private static void addTones(TreeSet<TimeSpan> spans, List<TimeSpan> joined) {
        for (int a = 0; a < joined.size(); a++) {
            double start = Math.max(0, joined.get(a).startSeconds() - EDGE_SECONDS);
            for (int b = a; b < Math.min(joined.size(), a + MOST_TONES); b++) {
                if (b > a && joined.get(b).startSeconds() - joined.get(b - 1).endSeconds() > GAP_SECONDS) {
                    break;
                }
                spans.add(new TimeSpan(start, joined.get(b).endSeconds() + EDGE_SECONDS));
            }
        }
    }
}
