package lungwort.sound;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lungwort.breath.Breath;
import lungwort.breath.Breathing;
import lungwort.signal.Statistics;

/**
 * How bursts come back from breath to breath. Crackles are heard at the same point of one breath after another (common practice; Sovijarvi et al., Eur Respir Rev 2000, describe them by their
 * timing in the breath), while a knock comes once and the heart keeps its own time. So a burst is held against what sounds at the same point of the other breaths.
 */
public final class Recurrence {
    /** How exactly a crackle keeps its place in the breath, in seconds: the standard deviation of the kernel by which bursts are counted. */
    static final double PLACE_SECONDS = 0.08;

    /** A burst this near to the same point of another breath, in seconds, counts as one that is held there. */
    static final double NEAR_SECONDS = 0.124;

    /** Breaths before and after that a burst is held against. */
    private static final int BREATHS_EACH_WAY = 12;

    private static final double KERNEL_REACH = 5 * PLACE_SECONDS;
    private static final double KERNEL_SCALE = 1 / (PLACE_SECONDS * Math.sqrt(2 * Math.PI));

    /** Densities are held this far over the mean, so that one loud knock does not speak for all. */
    private static final double MOST_OVER_MEAN = 20;

    /** Added to densities before dividing, in weight a second. */
    private static final double FLOOR = 0.5;

    private static final double LEAST_RATIO = 0.05;
    private static final double MOST_WEIGHT = 4;
    private static final double WEIGHT_UNIT_SCORE = 4;

    private final double[] times;
    private final double[] weights;
    private final double meanDensity;
    private final double durationSeconds;
    private final List<Breath> breaths;
    private final double usualSeconds;

    private Recurrence(List<Burst> bursts, Breathing breathing, double durationSeconds) {
        this.times = bursts.stream().mapToDouble(Burst::seconds).toArray();
        this.weights = bursts.stream().mapToDouble(Recurrence::weight).toArray();
        this.durationSeconds = durationSeconds;
        this.meanDensity = Arrays.stream(weights).sum() / Math.max(0.1, durationSeconds);
        this.breaths = breathing.breaths();
        this.usualSeconds = usual(breaths);
    }

    /**
     * A burst and how it comes back.
     *
     * @param seconds start of the burst within the recording
     * @param weight logarithm of its score over 4, at most 4
     * @param logDensity natural logarithm of the density of bursts at the same point of the other breaths over their mean density in the recording, at least -3; 0 where it has no other breath
     * @param share of the other breaths in which a burst stands at the same point, in [0, 1]; 0 where it has no other breath
     */
    public record Return(double seconds, double weight, double logDensity, double share) {}

    /**
     * How each burst comes back.
     *
     * @param bursts of one kind, in order of time
     * @param breathing the breaths of the recording; fewer than two tell nothing
     * @param durationSeconds length of the recording
     * @return as many, in the same order
     */
    public static List<Return> of(List<Burst> bursts, Breathing breathing, double durationSeconds) {
        Recurrence recurrence = new Recurrence(bursts, breathing, durationSeconds);
        List<Return> returns = new ArrayList<>();
        for (int i = 0; i < recurrence.times.length; i++) {
            returns.add(recurrence.returnOf(i));
        }
        return returns;
    }

    static double weight(Burst burst) {
        return Math.min(MOST_WEIGHT, Math.log(burst.score() / WEIGHT_UNIT_SCORE));
    }

    /** Length of a breath that no end of the recording cuts, in seconds: the median of the inner ones. */
    private static double usual(List<Breath> breaths) {
        double[] lengths = breaths.stream().mapToDouble(Recurrence::length).toArray();
        return lengths.length <= 2
                ? Arrays.stream(lengths).max().orElse(0)
                : Statistics.median(Arrays.copyOfRange(lengths, 1, lengths.length - 1));
    }

    private static double length(Breath breath) {
        return breath.endSeconds() - breath.startSeconds();
    }

    private Return returnOf(int i) {
        if (breaths.size() < 2 || times.length < 2) {
            return new Return(times[i], weights[i], 0, 0);
        }
        int own = breathOf(times[i]);
        double place = (times[i] - begin(own)) / wholeLength(own);
        double density = 0;
        int held = 0;
        int others = 0;
        int last = Math.min(breaths.size() - 1, own + BREATHS_EACH_WAY);
        for (int other = Math.max(0, own - BREATHS_EACH_WAY); other <= last; other++) {
            double at = begin(other) + place * wholeLength(other);
            if (other != own && at >= 0 && at < durationSeconds) {
                density += Math.min(density(at), MOST_OVER_MEAN * meanDensity);
                held += nearest(at) < NEAR_SECONDS ? 1 : 0;
                others++;
            }
        }
        if (others == 0) {
            return new Return(times[i], weights[i], 0, 0);
        }
        double ratio = (density / others + FLOOR) / (meanDensity + FLOOR);
        return new Return(times[i], weights[i], Math.log(Math.max(LEAST_RATIO, ratio)), (double) held / others);
    }

    private int breathOf(double seconds) {
        int at = 0;
        while (at + 1 < breaths.size() && breaths.get(at + 1).startSeconds() <= seconds) {
            at++;
        }
        return at;
    }

    /** Where a breath began, also one whose beginning was not recorded. */
    private double begin(int breath) {
        Breath b = breaths.get(breath);
        return breath == 0 && b.startSeconds() == 0 ? Math.min(0, b.endSeconds() - usualSeconds) : b.startSeconds();
    }

    private double wholeLength(int breath) {
        Breath b = breaths.get(breath);
        double length = b.endSeconds() - begin(breath);
        return breath == breaths.size() - 1 ? Math.max(length, usualSeconds) : length;
    }

    private double density(double at) {
        double density = 0;
        for (int i = firstFrom(at - KERNEL_REACH); i < times.length && times[i] <= at + KERNEL_REACH; i++) {
            double z = (times[i] - at) / PLACE_SECONDS;
            density += weights[i] * KERNEL_SCALE * Math.exp(-z * z / 2);
        }
        return density;
    }

    private double nearest(double at) {
        int next = firstFrom(at);
        double after = next < times.length ? times[next] - at : Double.POSITIVE_INFINITY;
        double before = next > 0 ? at - times[next - 1] : Double.POSITIVE_INFINITY;
        return Math.min(before, after);
    }

    private int firstFrom(double seconds) {
        int found = Arrays.binarySearch(times, seconds);
        return found >= 0 ? found : -found - 1;
    }
}
