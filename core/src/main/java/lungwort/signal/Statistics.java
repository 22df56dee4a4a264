package lungwort.signal;

import java.util.Arrays;

/** Numbers that sum up many; NaN for an empty array. The array given is never changed. */
public final class Statistics {
    /** Makes the median absolute deviation of normal noise its standard deviation: 1 / (the normal distribution's 75 % quantile). */
    public static final double MAD_TO_SIGMA = 1.4826022185056018;

    private Statistics() {}

    /** Arithmetic mean. */
    public static double mean(double[] x) {
        double sum = 0;
        for (double v : x) {
            sum += v;
        }
        return sum / x.length;
    }

    /** Root mean square. */
    public static double rms(double[] x) {
        double sum = 0;
        for (double v : x) {
            sum += v * v;
        }
        return Math.sqrt(sum / x.length);
    }

    /** Standard deviation, divided by n. */
    public static double standardDeviation(double[] x) {
        return Math.sqrt(moment(x, mean(x), 2));
    }

    /** Fisher's skewness m3 / m2^1.5 with moments divided by n (SciPy's {@code skew}); 0 for a constant array. */
    public static double skewness(double[] x) {
        double mean = mean(x);
        double variance = moment(x, mean, 2);
        return isFlat(variance, mean) ? 0 : moment(x, mean, 3) / Math.pow(variance, 1.5);
    }

    /** Excess kurtosis m4 / m2^2 - 3 with moments divided by n (SciPy's {@code kurtosis}); 0 for a constant array. */
    public static double kurtosis(double[] x) {
        double mean = mean(x);
        double variance = moment(x, mean, 2);
        return isFlat(variance, mean) ? 0 : moment(x, mean, 4) / (variance * variance) - 3;
    }

    private static boolean isFlat(double variance, double mean) {
        double rounding = Math.ulp(1.0) * mean;
        return variance <= rounding * rounding;
    }

    private static double moment(double[] x, double mean, int power) {
        double sum = 0;
        for (double v : x) {
            double d = v - mean;
            double d2 = d * d;
            sum += power == 2 ? d2 : power == 3 ? d2 * d : d2 * d2;
        }
        return sum / x.length;
    }

    /** The middle value, or the mean of the two middle ones. */
    public static double median(double[] x) {
        return medianInPlace(x.clone(), x.length);
    }

    /** Median absolute deviation from the median, unscaled; times {@link #MAD_TO_SIGMA} it estimates the standard deviation of normal noise. */
    public static double medianAbsoluteDeviation(double[] x) {
        double[] work = x.clone();
        double median = medianInPlace(work, work.length);
        for (int i = 0; i < work.length; i++) {
            work[i] = Math.abs(work[i] - median);
        }
        return medianInPlace(work, work.length);
    }

    /**
     * Median of the first {@code length} values of a work array, whose order is lost: for loops that would otherwise allocate at each turn.
     *
     * @return NaN if length is 0
     */
    public static double medianInPlace(double[] work, int length) {
        if (length == 0) {
            return Double.NaN;
        }
        int middle = length / 2;
        double upper = selectInPlace(work, length, middle);
        if (length % 2 == 1) {
            return upper;
        }
        double lower = work[0];
        for (int i = 1; i < middle; i++) {
            lower = Math.max(lower, work[i]);
        }
        return (lower + upper) / 2;
    }

    /** The value below which {@code percent} (0 to 100) of the values lie, interpolated linearly between ranks (Hyndman and Fan 1996, type 7; NumPy's default). */
    public static double percentile(double[] x, double percent) {
        return percentiles(x, percent)[0];
    }

    /** As {@link #percentile} for several at the cost of one sort: shape {@code [percents.length]}. */
    public static double[] percentiles(double[] x, double... percents) {
        double[] sorted = x.clone();
        Arrays.sort(sorted);
        double[] result = new double[percents.length];
        for (int i = 0; i < percents.length; i++) {
            result[i] = ofSorted(sorted, percents[i]);
        }
        return result;
    }

    private static double ofSorted(double[] sorted, double percent) {
        if (!(percent >= 0 && percent <= 100)) {
            throw new IllegalArgumentException("percentile " + percent + " is outside 0 to 100");
        }
        if (sorted.length == 0) {
            return Double.NaN;
        }
        double rank = percent / 100 * (sorted.length - 1);
        int below = (int) rank;
        int above = Math.min(sorted.length - 1, below + 1);
        return sorted[below] + (rank - below) * (sorted[above] - sorted[below]);
    }

    /** Quickselect (Hoare 1961): afterwards work[k] is the k-th smallest, all before it are no larger. */
    private static double selectInPlace(double[] work, int length, int k) {
        int low = 0;
        int high = length - 1;
        while (low < high) {
            double pivot = middleOfThree(work[low], work[(low + high) >>> 1], work[high]);
            int i = low;
            int j = high;
            while (i <= j) {
                while (work[i] < pivot) {
                    i++;
                }
                while (work[j] > pivot) {
                    j--;
                }
                if (i <= j) {
                    double swap = work[i];
                    work[i++] = work[j];
                    work[j--] = swap;
                }
            }
            if (k <= j) {
                high = j;
            } else if (k >= i) {
                low = i;
            } else {
                return work[k];
            }
        }
        return work[k];
    }

    private static double middleOfThree(double a, double b, double c) {
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }
}
