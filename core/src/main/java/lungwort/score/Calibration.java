package lungwort.score;

import java.util.ArrayList;
import java.util.List;

/** How far stated probabilities are from observed shares. */
public final class Calibration {
    /** Usual number of equal-width bins (Guo et al., ICML 2017, use 15 [M]). */
    public static final int DEFAULT_BINS = 15;

    private Calibration() {}

    /**
     * The reliability diagram: items sorted into bins of equal width by their probability.
     *
     * @param probabilities each in [0, 1]
     * @param truth what came true, same length
     * @param bins at least 1
     * @return all bins from 0 to 1, empty ones too; a probability on an inner edge belongs to the bin above
     */
    public static List<Bin> bins(double[] probabilities, boolean[] truth, int bins) {
        check(probabilities, truth);
        int[] counts = new int[bins];
        double[] sums = new double[bins];
        int[] hits = new int[bins];
        for (int i = 0; i < probabilities.length; i++) {
            int bin = (int) Math.min(bins - 1, Math.floor(probabilities[i] * bins));
            counts[bin]++;
            sums[bin] += probabilities[i];
            hits[bin] += truth[i] ? 1 : 0;
        }
        List<Bin> result = new ArrayList<>();
        for (int b = 0; b < bins; b++) {
            double mean = counts[b] == 0 ? Double.NaN : sums[b] / counts[b];
            double observed = counts[b] == 0 ? Double.NaN : (double) hits[b] / counts[b];
            result.add(new Bin((double) b / bins, (double) (b + 1) / bins, counts[b], mean, observed));
        }
        return result;
    }

    /**
     * Expected calibration error: the mean over the items of |observed share - mean probability| of their bin (Naeini et al., AAAI 2015; Guo et al., ICML 2017 [M]), here
     * for the probability of one outcome, not of the likeliest class.
     *
     * @return in [0, 1]; NaN without items
     */
    public static double expectedError(double[] probabilities, boolean[] truth, int bins) {
        return expectedError(bins(probabilities, truth, bins));
    }

    /** The same from a reliability diagram. */
    public static double expectedError(List<Bin> bins) {
        double sum = 0;
        long items = 0;
        for (Bin bin : bins) {
            if (bin.count() > 0) {
                sum += bin.count() * Math.abs(bin.observedShare() - bin.meanProbability());
                items += bin.count();
            }
        }
        return items == 0 ? Double.NaN : sum / items;
    }

    /** Brier score: the mean squared difference of probability and outcome (Brier, Mon Weather Rev 1950); NaN without items. */
    public static double brier(double[] probabilities, boolean[] truth) {
        check(probabilities, truth);
        double sum = 0;
        for (int i = 0; i < probabilities.length; i++) {
            double error = probabilities[i] - (truth[i] ? 1 : 0);
            sum += error * error;
        }
        return probabilities.length == 0 ? Double.NaN : sum / probabilities.length;
    }

    private static void check(double[] probabilities, boolean[] truth) {
        if (probabilities.length != truth.length) {
            throw new IllegalArgumentException(
                    "%d probabilities but %d truths".formatted(probabilities.length, truth.length));
        }
        for (double p : probabilities) {
            if (!(p >= 0 && p <= 1)) {
                throw new IllegalArgumentException("probability " + p + " is outside 0 to 1");
            }
        }
    }

    /**
     * One bin of the reliability diagram.
     *
     * @param low lower edge
     * @param high upper edge
     * @param count items in it
     * @param meanProbability mean of what was stated; NaN if empty
     * @param observedShare share that came true; NaN if empty
     */
    public record Bin(double low, double high, int count, double meanProbability, double observedShare) {}
}
