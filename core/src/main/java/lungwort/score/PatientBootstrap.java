package lungwort.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Percentile intervals by resampling patients with replacement (the cluster bootstrap: Efron and Tibshirani 1993, Field and Welsh, J R Stat Soc B 2007 [M]). Items of
 * one patient are alike, so resampling items would give intervals that are too narrow.
 */
public final class PatientBootstrap {
    /** Usual number of resamples for 95 % percentile intervals. */
    public static final int DEFAULT_RESAMPLES = 1000;

    private static final double TAIL = 0.025;

    private final int[][] itemsOfPatient;
    private final int resamples;
    private final long seed;

    /**
     * @param patients the patient of each item, in the items' order
     * @param resamples at least 1
     * @param seed makes the interval again, with any number of threads
     */
    public PatientBootstrap(List<String> patients, int resamples, long seed) {
        if (resamples < 1) {
            throw new IllegalArgumentException(resamples + " resamples");
        }
        TreeMap<String, List<Integer>> items = new TreeMap<>();
        for (int i = 0; i < patients.size(); i++) {
            items.computeIfAbsent(patients.get(i), p -> new ArrayList<>()).add(i);
        }
        this.itemsOfPatient = items.values().stream()
                .map(list -> list.stream().mapToInt(Integer::intValue).toArray())
                .toArray(int[][]::new);
        this.resamples = resamples;
        this.seed = seed;
    }

    /**
     * The 95 % interval of a figure.
     *
     * @param figure from the indices of a resample's items (a patient drawn twice is in it twice) to the figure; NaN where it is undefined. It is called from several
     *     threads.
     * @return NaN ends if it was undefined in every resample
     */
    public Interval interval(ToDoubleFunction<int[]> figure) {
        return intervals(1, drawn -> new double[] {figure.applyAsDouble(drawn)}).get(0);
    }

    /** The same resampling of other items. */
    PatientBootstrap with(List<String> patients) {
        return new PatientBootstrap(patients, resamples, seed);
    }

    /**
     * The 95 % intervals of figures that are computed together.
     *
     * @param count how many there are
     * @param figures as in {@link #interval}, returning {@code count} values
     */
    public List<Interval> intervals(int count, Function<int[], double[]> figures) {
        double[][] values = IntStream.range(0, resamples)
                .parallel()
                .mapToObj(r -> figures.apply(resample(r)))
                .toArray(double[][]::new);
        return IntStream.range(0, count)
                .mapToObj(f -> percentiles(Arrays.stream(values).mapToDouble(v -> v[f])))
                .toList();
    }

    private static Interval percentiles(DoubleStream values) {
        double[] defined = values.filter(v -> !Double.isNaN(v)).sorted().toArray();
        return new Interval(quantile(defined, TAIL), quantile(defined, 1 - TAIL), defined.length);
    }

    /** The items of one resample; each has a random stream of its own, so the threads' order does not matter. */
    private int[] resample(int number) {
        SplittableRandom random = new SplittableRandom(new SplittableRandom(seed).nextLong() + number);
        int[][] drawn = new int[itemsOfPatient.length][];
        int length = 0;
        for (int i = 0; i < drawn.length; i++) {
            drawn[i] = itemsOfPatient[random.nextInt(itemsOfPatient.length)];
            length += drawn[i].length;
        }
        int[] items = new int[length];
        int at = 0;
        for (int[] patient : drawn) {
            System.arraycopy(patient, 0, items, at, patient.length);
            at += patient.length;
        }
        return items;
    }

    /** Linear interpolation between order statistics (Hyndman and Fan's type 7, the default of R and NumPy). */
    static double quantile(double[] sorted, double q) {
        if (sorted.length == 0) {
            return Double.NaN;
        }
        double position = q * (sorted.length - 1);
        int below = (int) Math.floor(position);
        int above = Math.min(below + 1, sorted.length - 1);
        return sorted[below] + (position - below) * (sorted[above] - sorted[below]);
    }
}
