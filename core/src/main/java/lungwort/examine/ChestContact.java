package lungwort.examine;

import java.util.Arrays;
import lungwort.audio.Recording;
import lungwort.breath.BandLevels;
import lungwort.signal.Butterworth;
import lungwort.signal.Statistics;

/**
 * Whether the chest piece lay on the chest: the body's low rumble ({@value #LOW_HZ} to {@value #HIGH_HZ} Hz, heart and muscles) goes on while the breath pauses, and falls when the piece is lifted. The
 * quality check asks the same of the whole recording; here it is asked of one stretch.
 */
final class ChestContact {
    private static final double LOW_HZ = 20;
    private static final double HIGH_HZ = 150;
    private static final int ORDER = 2;
    private static final double FRAME_SECONDS = 0.064;

    /** Heart beats come and go: what is told is the level that is exceeded a fifth of the time around. */
    private static final double AROUND_SECONDS = 1;

    private static final double AROUND_PERCENT = 80;

    /** How far the rumble may be lower than in the other quiet moments, in dB; synthesised lifts give 28 and more, pauses up to 4. */
    private static final double MAX_FALL_DB = 10;

    /** The same against the breaths, whose noise reaches so low, where there are hardly any other quiet moments. */
    private static final double MAX_FALL_FROM_BREATH_DB = 15;

    private static final double MIN_QUIET_SECONDS = 1;

    private final double[] rumbleDb;
    private final double hopSeconds;

    private ChestContact(double[] rumbleDb, double hopSeconds) {
        this.rumbleDb = rumbleDb;
        this.hopSeconds = hopSeconds;
    }

    /** The rumble of a recording on the frames of its band levels. */
    static ChestContact of(Recording recording, BandLevels levels) {
        int rate = recording.sampleRateHz();
        double[] low = Butterworth.bandPass(ORDER, LOW_HZ, HIGH_HZ, rate).filtFilt(recording.samples());
        int frame = (int) Math.round(FRAME_SECONDS * rate);
        double[] level = new double[levels.frames()];
        for (int t = 0; t < level.length; t++) {
            int middle = (int) Math.round(levels.secondsOf(t) * rate);
            int from = Math.max(0, Math.min(middle - frame / 2, low.length - frame));
            double rms = Statistics.rms(Arrays.copyOfRange(low, from, from + frame));
            level[t] = 20 * Math.log10(rms + 1e-7);
        }
        int around = (int) Math.round(AROUND_SECONDS / levels.hopSeconds());
        return new ChestContact(BreathingPauses.running(level, around, AROUND_PERCENT), levels.hopSeconds());
    }

    /**
     * Whether the rumble goes on in a stretch.
     *
     * @param quiet shape {@code [frames]}: where no breath is heard
     * @param run first frame of the stretch, and the frame after the last
     */
    boolean kept(boolean[] quiet, int[] run) {
        double inside = Statistics.median(Arrays.copyOfRange(rumbleDb, run[0], run[1]));
        double[] others = outside(quiet, run);
        return others.length * hopSeconds >= MIN_QUIET_SECONDS
                ? inside >= Statistics.median(others) - MAX_FALL_DB
                : inside >= Statistics.median(outside(null, run)) - MAX_FALL_FROM_BREATH_DB;
    }

    private double[] outside(boolean @org.jspecify.annotations.Nullable [] where, int[] run) {
        double[] kept = new double[rumbleDb.length];
        int n = 0;
        for (int t = 0; t < rumbleDb.length; t++) {
            if ((t < run[0] || t >= run[1]) && (where == null || where[t])) {
                kept[n++] = rumbleDb[t];
            }
        }
        return Arrays.copyOf(kept, n);
    }
}
