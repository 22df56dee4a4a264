package lungwort.quality;

import java.util.List;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/**
 * How far breath stands out of the recording.
 *
 * @param depthDb median level from 200 to 650 Hz in inspiration less that in the pauses found, in dB; where no phase is told, the spread of the slowly moving level
 * @param evenness 1 where all whole breaths are equally long, towards 0 the more they differ
 */
record BreathDepth(double depthDb, double evenness) {
    private static final int FIRST_BAND = 4;
    private static final int LAST_BAND = 6;
    private static final double SMOOTH_SECONDS = 0.1;
    private static final double SLOW_SECONDS = 0.5;

    static BreathDepth of(List<FrameTrack.Frame> frames, Breathing breathing) {
        double[] level = new double[frames.size()];
        for (int t = 0; t < level.length; t++) {
            for (int b = FIRST_BAND; b <= LAST_BAND; b++) {
                level[t] += frames.get(t).medianDb()[b] / (LAST_BAND - FIRST_BAND + 1);
            }
        }
        double[] slow = Envelope.smoothed(level, (int) (SLOW_SECONDS / FrameTrack.HOP_SECONDS));
        level = Envelope.smoothed(level, (int) (SMOOTH_SECONDS / FrameTrack.HOP_SECONDS));
        double in = median(level, breathing, BreathPhase.INSPIRATION);
        double still = median(level, breathing, BreathPhase.PAUSE);
        return new BreathDepth(Double.isNaN(in - still) ? spread(slow) : in - still, evenness(breathing.whole()));
    }

    /** Where no phase is told: how far the slowly moving level rises and falls. */
    private static double spread(double[] slow) {
        if (slow.length == 0) {
            return 0;
        }
        double[] ends = Statistics.percentiles(slow, 10, 90);
        return ends[1] - ends[0];
    }

    private static double median(double[] level, Breathing breathing, BreathPhase phase) {
        double[] part = new double[level.length];
        int n = 0;
        for (Breath breath : breathing.breaths()) {
            for (PhaseSpan span : breath.phases()) {
                if (span.phase() == phase) {
                    int from = frame(span.startSeconds());
                    int to = Math.min(level.length, frame(span.endSeconds()));
                    for (int t = from; t < to && n < part.length; t++) {
                        part[n++] = level[t];
                    }
                }
            }
        }
        return Statistics.medianInPlace(part, n);
    }

    private static int frame(double seconds) {
        return (int) Math.max(0, Math.round((seconds - FrameTrack.FRAME_SECONDS / 2) / FrameTrack.HOP_SECONDS));
    }

    private static double evenness(List<Breath> breaths) {
        if (breaths.size() < 2) {
            return 0;
        }
        double[] lengths = breaths.stream()
                .mapToDouble(b -> b.endSeconds() - b.startSeconds())
                .toArray();
        return Math.max(0, 1 - Statistics.standardDeviation(lengths) / Statistics.mean(lengths));
    }
}
