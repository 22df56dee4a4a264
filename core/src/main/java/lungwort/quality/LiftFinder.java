package lungwort.quality;

import java.util.Arrays;
import lungwort.signal.Statistics;

/**
 * Finds for how much of a recording the chest piece was off the chest: the body's low rumble (20 to 150 Hz), which is there as long as it lies on, falls far below what it is at other times and stays
 * down. Common practice [C]; the limits were set on SPRSound's training set.
 */
final class LiftFinder {
    /** Heart beats come and go; what is told is the level that is exceeded a fifth of the time around. */
    private static final double AROUND_SECONDS = 1;

    private static final double AROUND_PERCENT = 80;

    /** The body is heard where that level is at its highest tenth. */
    private static final double BODY_PERCENT = 90;

    private static final double MIN_SECONDS = 1.5;

    private LiftFinder() {}

    /**
     * Share of the time, in [0, 1], in stretches of {@value #MIN_SECONDS} s and more in which the low level lies at least so far below that of the body.
     *
     * @param lowDb level from 20 to 150 Hz per frame
     * @param fallDb how far, in dB
     */
    static double share(double[] lowDb, double fallDb) {
        if (lowDb.length == 0) {
            return 0;
        }
        double[] around = new double[lowDb.length];
        int half = (int) (AROUND_SECONDS / 2 / FrameTrack.HOP_SECONDS);
        for (int t = 0; t < around.length; t++) {
            double[] near = Arrays.copyOfRange(lowDb, Math.max(0, t - half), Math.min(lowDb.length, t + half + 1));
            around[t] = Statistics.percentile(near, AROUND_PERCENT);
        }
        double limit = Statistics.percentile(around.clone(), BODY_PERCENT) - fallDb;
        int frames = 0;
        int run = 0;
        for (int t = 0; t <= around.length; t++) {
            if (t < around.length && around[t] < limit) {
                run++;
            } else {
                frames += run * FrameTrack.HOP_SECONDS >= MIN_SECONDS ? run : 0;
                run = 0;
            }
        }
        return (double) frames / around.length;
    }
}
