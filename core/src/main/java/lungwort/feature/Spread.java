package lungwort.feature;

import java.util.Arrays;

/** Sums up the values of a slice of an array: sorted once, asked many times. */
final class Spread {
    private final double[] sorted;
    private final double mean;

    /** @param from first value, @param to one past the last; the slice must not be empty */
    Spread(double[] x, int from, int to) {
        sorted = Arrays.copyOfRange(x, from, to);
        double sum = 0;
        for (double v : sorted) {
            sum += v;
        }
        mean = sum / sorted.length;
        Arrays.sort(sorted);
    }

    double mean() {
        return mean;
    }

    double max() {
        return sorted[sorted.length - 1];
    }

    double deviation() {
        return Math.sqrt(moment(2));
    }

    /** Kurtosis, not less 3; 3 for a constant. */
    double kurtosis() {
        double variance = moment(2);
        return variance < 1e-18 ? 3 : moment(4) / (variance * variance);
    }

    private double moment(int power) {
        double sum = 0;
        for (double v : sorted) {
            double d = (v - mean) * (v - mean);
            sum += power == 2 ? d : d * d;
        }
        return sum / sorted.length;
    }

    /** Percentile, interpolated linearly between ranks. */
    double percentile(double percent) {
        double rank = percent / 100 * (sorted.length - 1);
        int low = (int) rank;
        int high = Math.min(sorted.length - 1, low + 1);
        return sorted[low] + (rank - low) * (sorted[high] - sorted[low]);
    }

    /** Share of values above a limit, in [0, 1]. */
    double shareAbove(double limit) {
        int at = Arrays.binarySearch(sorted, Math.nextUp(limit));
        int first = at >= 0 ? at : -at - 1;
        while (first > 0 && sorted[first - 1] > limit) {
            first--;
        }
        return (double) (sorted.length - first) / sorted.length;
    }
}
