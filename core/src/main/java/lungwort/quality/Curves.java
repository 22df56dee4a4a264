package lungwort.quality;

import java.util.Arrays;
import java.util.List;
import lungwort.signal.Envelope;
import lungwort.signal.Statistics;

/**
 * Levels over time, frame by frame, from which disturbances are told; each shape {@code [frames]}, in dB (3 dB below the RMS level).
 *
 * @param low 20 to 150 Hz
 * @param middle 200 to 650 Hz
 * @param high 900 to 2000 Hz
 * @param wide 60 to 2000 Hz
 * @param lowOver how far each stands over what is usual within some seconds of it
 */
record Curves(
        double[] low,
        double[] middle,
        double[] high,
        double[] wide,
        double[] lowOver,
        double[] middleOver,
        double[] highOver,
        double[] wideOver) {
    private static final double SURROUNDINGS_SECONDS = 6;
    private static final double STEP_SECONDS = 0.5;

    /** Usual is what is exceeded six tenths of the time: breaths fill about half of it. */
    private static final double USUAL_PERCENT = 40;

    /** What lasts longer than the surroundings is not usual either, unless it fills most of the recording. */
    private static final double MOST_OVER_WHOLE_DB = 3;

    static Curves of(List<FrameTrack.Frame> frames) {
        double[] low = curve(frames, 0, 3);
        double[] middle = curve(frames, 4, 7);
        double[] high = curve(frames, 8, 11);
        double[] wide = curve(frames, 1, 11);
        return new Curves(low, middle, high, wide, over(low), over(middle), over(high), over(wide));
    }

    /** Power of neighbouring bands together at positive frequencies alone, in dB re full scale: 3 dB less than the RMS level. */
    private static double[] curve(List<FrameTrack.Frame> frames, int from, int to) {
        double[] curve = new double[frames.size()];
        for (int t = 0; t < curve.length; t++) {
            double sum = 0;
            for (int b = from; b < to; b++) {
                double width = FrameTrack.EDGES_HZ[b + 1] - FrameTrack.EDGES_HZ[b];
                sum += width * Math.pow(10, frames.get(t).meanDb()[b] / 10);
            }
            curve[t] = 10 * Math.log10(sum);
        }
        return curve;
    }

    private static double[] over(double[] curve) {
        int half = (int) (SURROUNDINGS_SECONDS / 2 / FrameTrack.HOP_SECONDS);
        int step = (int) (STEP_SECONDS / FrameTrack.HOP_SECONDS);
        double[] over = new double[curve.length];
        double whole = curve.length == 0 ? 0 : Statistics.percentile(curve, USUAL_PERCENT);
        double usual = 0;
        for (int t = 0; t < curve.length; t++) {
            if (t % step == 0) {
                int from = Math.max(0, Math.min(t - half, curve.length - 2 * half));
                int to = Math.min(curve.length, Math.max(t + half, 2 * half));
                double near = Statistics.percentile(Arrays.copyOfRange(curve, from, to), USUAL_PERCENT);
                usual = Math.min(near, whole + MOST_OVER_WHOLE_DB);
            }
            over[t] = curve[t] - usual;
        }
        return over;
    }

    /** Mean step from frame to frame around each frame, in dB. */
    static double[] roughness(double[] curve, double seconds) {
        double[] steps = new double[curve.length];
        for (int t = 1; t < curve.length; t++) {
            steps[t] = Math.abs(curve[t] - curve[t - 1]);
        }
        return Envelope.smoothed(steps, (int) Math.max(1, seconds / FrameTrack.HOP_SECONDS));
    }
}
