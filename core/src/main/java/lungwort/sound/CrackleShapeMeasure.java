package lungwort.sound;

import java.util.Arrays;
import lungwort.signal.Statistics;
import org.jspecify.annotations.Nullable;

/**
 * The widths of a transient from its zero crossings: initial deflection, two cycles, largest deflection (Murphy et al., NEJM 1977; Chest 1990;98:1240 for the largest deflection).
 *
 * @param startSample start of the initial deflection, in samples (fractions between)
 * @param initialSamples width of the initial deflection
 * @param twoCycleSamples from the start to the fourth return to the baseline
 * @param largestSamples width of the largest deflection
 * @param peak magnitude of the largest deflection
 * @param noise RMS just before
 * @param after level 4 to 29 ms after the second cycle, told like the noise: what rings on
 * @param fit best correlation with a mathematical crackle ({@link CrackleShape}) of the same largest deflection, in [0, 1]
 */
record CrackleShapeMeasure(
        double startSample,
        double initialSamples,
        double twoCycleSamples,
        double largestSamples,
        double peak,
        double noise,
        double after,
        double fit) {
    /** A deflection before the largest belongs to the crackle from this share of the largest on ... */
    private static final double MEMBER_SHARE = 0.30;

    /** ... and from this multiple of the noise on. */
    private static final double MEMBER_NOISE = 2.0;

    /** How far the mathematical crackle is moved to fit, in samples, and by which steps. */
    private static final double FIT_REACH = 2;

    private static final double FIT_STEP = 0.5;

    /** The first deflection leaves the baseline where it passes this share of the largest ... */
    private static final double ONSET_SHARE = 0.06;

    /** ... and this multiple of the noise. */
    private static final double ONSET_NOISE = 0.5;

    /** A fourth deflection this many times as long as the third is the filter's tail. */
    private static final double LONGEST_LAST = 1.6;

    /** Most deflections before the largest. */
    private static final int MOST_BEFORE = 2;

    private static final double BEFORE_SECONDS = 0.030;
    private static final double GUARD_SECONDS = 0.004;
    private static final double AFTER_SECONDS = 0.025;

    /** Median magnitude of Gaussian noise of unit RMS. */
    private static final double MEDIAN_OF_UNIT_NOISE = 0.6745;

    /**
     * @param x samples
     * @param from first sample in which the largest deflection is looked for
     * @param to first sample beyond
     * @param rateHz samples a second
     * @return null where the transient touches an end of the recording
     */
    static @Nullable CrackleShapeMeasure at(double[] x, int from, int to, int rateHz) {
        int peak = Math.max(1, from);
        for (int i = peak; i < Math.min(to, x.length); i++) {
            peak = Math.abs(x[i]) > Math.abs(x[peak]) ? i : peak;
        }
        double left = crossing(x, peak, -1);
        double right = crossing(x, peak, 1);
        if (Double.isNaN(left) || Double.isNaN(right)) {
            return null;
        }
        double noise = noiseBefore(x, left, rateHz);
        double quiet = Math.max(ONSET_SHARE * Math.abs(x[peak]), ONSET_NOISE * noise);
        double start = left;
        int before = 0;
        for (int k = 0; k < MOST_BEFORE; k++) {
            double earlier = crossing(x, (int) Math.floor(start), -1);
            if (Double.isNaN(earlier)
                    || most(x, earlier, start) < Math.max(MEMBER_SHARE * Math.abs(x[peak]), MEMBER_NOISE * noise)) {
                break;
            }
            start = earlier;
            before++;
        }
        start = onset(x, start, crossing(x, (int) Math.floor(start) + 1, 1), quiet);
        double first = before == 0 ? right : crossing(x, (int) Math.floor(start) + 1, 1);
        double end = fourthReturn(x, start, noise);
        if (Double.isNaN(end) || Double.isNaN(first)) {
            return null;
        }
        double after = magnitude(x, end + GUARD_SECONDS * rateHz, end + (GUARD_SECONDS + AFTER_SECONDS) * rateHz);
        return new CrackleShapeMeasure(
                start,
                first - start,
                end - start,
                right - left,
                Math.abs(x[peak]),
                noise,
                after,
                fit(x, left, right, rateHz));
    }

    private static double fit(double[] x, double left, double right, int rateHz) {
        double perMs = rateHz / 1000.0;
        CrackleShape shape = CrackleShape.ofLargestDeflection((right - left) / perMs);
        double length = shape.twoCycleMs() * perMs;
        double best = 0;
        for (double shift = -FIT_REACH; shift <= FIT_REACH; shift += FIT_STEP) {
            double start = left - CrackleShape.USUAL_INITIAL_SHARE * length + shift;
            double cross = 0;
            double own = 0;
            double theirs = 0;
            for (int i = (int) Math.max(0, Math.ceil(start)); i < Math.min(x.length, start + length); i++) {
                double y = shape.at((i - start) / perMs);
                cross += x[i] * y;
                own += x[i] * x[i];
                theirs += y * y;
            }
            best = own * theirs > 0 ? Math.max(best, Math.abs(cross) / Math.sqrt(own * theirs)) : best;
        }
        return best;
    }

    /** RMS before the transient, told from the median so that an earlier crackle does not count. */
    private static double noiseBefore(double[] x, double left, int rateHz) {
        double to = left - GUARD_SECONDS * rateHz;
        return magnitude(x, to - BEFORE_SECONDS * rateHz, to);
    }

    private static double magnitude(double[] x, double from, double to) {
        int a = (int) Math.max(0, Math.min(x.length, from));
        int b = (int) Math.max(a, Math.min(x.length, to));
        if (b - a < 8) {
            return 0;
        }
        double[] part = Arrays.copyOfRange(x, a, b);
        for (int i = 0; i < part.length; i++) {
            part[i] = Math.abs(part[i]);
        }
        return Statistics.median(part) / MEDIAN_OF_UNIT_NOISE;
    }

    /**
     * Where the second cycle ends. The fourth deflection is weak; when it drowns in the noise, or the filter's tail draws it out, the crossings before it tell where it would end: in the mathematical crackle (Kiyokawa et
     * al. 2001 [M]) the k-th crossing lies at (k/4)^(1/a) of the whole.
     */
    private static double fourthReturn(double[] x, double start, double noise) {
        double[] at = new double[5];
        at[0] = start;
        for (int k = 1; k <= 4; k++) {
            at[k] = crossing(x, (int) Math.floor(at[k - 1]) + 1, 1);
            if (Double.isNaN(at[k])) {
                return Double.NaN;
            }
        }
        boolean heard = most(x, at[3], at[4]) >= MEMBER_NOISE * noise;
        if (heard && at[4] - at[3] <= LONGEST_LAST * (at[3] - at[2])) {
            return at[4];
        }
        double power = Math.log((at[3] - start) / (at[1] - start)) / Math.log(3);
        return start + (at[3] - start) * Math.pow(4.0 / 3, Math.max(1, Math.min(2, power)));
    }

    /** The filter's foot and the noise hide where the first deflection leaves the baseline; its start is where it leaves this level for good. */
    private static double onset(double[] x, double start, double end, double level) {
        for (int i = top(x, start, end) - 1; i > start; i--) {
            if (Math.abs(x[i]) < level) {
                double share = (level - Math.abs(x[i])) / (Math.abs(x[i + 1]) - Math.abs(x[i]));
                return i + Math.max(0, Math.min(1, share));
            }
        }
        return start;
    }

    private static int top(double[] x, double start, double end) {
        int top = (int) Math.ceil(start);
        for (int i = top; i < Math.min(x.length, end); i++) {
            top = Math.abs(x[i]) > Math.abs(x[top]) ? i : top;
        }
        return top;
    }

    private static double most(double[] x, double from, double to) {
        double most = 0;
        for (int i = (int) Math.ceil(from); i <= Math.min(x.length - 1, Math.floor(to)); i++) {
            most = Math.max(most, Math.abs(x[i]));
        }
        return most;
    }

    /** The zero crossing next to a sample going one way, by linear interpolation; NaN at the end of the recording. */
    private static double crossing(double[] x, int from, int step) {
        int i = Math.max(0, Math.min(x.length - 1, from));
        boolean positive = x[i] > 0;
        while (i + step >= 0 && i + step < x.length) {
            if (x[i + step] > 0 != positive) {
                double share = x[i] == x[i + step] ? 0 : x[i] / (x[i] - x[i + step]);
                return i + step * share;
            }
            i += step;
        }
        return Double.NaN;
    }
}
