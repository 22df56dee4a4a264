package lungwort.sound;

import java.util.Arrays;

/** Median of a window that slides over an array from left to right, kept sorted: each step costs a search and two short moves. */
final class SlidingMedian {
    private final double[] values;
    private final double[] sorted;
    private int start = -1;

    /** @param windowLength odd, at most {@code values.length} for a window to exist */
    SlidingMedian(double[] values, int windowLength) {
        this.values = values;
        this.sorted = new double[windowLength];
    }

    /** Median of {@code values[from .. from + windowLength)}; {@code from} must not go back from call to call. */
    double startingAt(int from) {
        if (start < 0) {
            System.arraycopy(values, from, sorted, 0, sorted.length);
            Arrays.sort(sorted);
            start = from;
        }
        while (start < from) {
            replace(values[start], values[start + sorted.length]);
            start++;
        }
        return sorted[sorted.length / 2];
    }

    private void replace(double old, double fresh) {
        int out = Arrays.binarySearch(sorted, old);
        int in = Arrays.binarySearch(sorted, fresh);
        in = in < 0 ? -in - 1 : in;
        if (in > out) {
            System.arraycopy(sorted, out + 1, sorted, out, in - 1 - out);
            sorted[in - 1] = fresh;
        } else {
            System.arraycopy(sorted, in, sorted, in + 1, out - in);
            sorted[in] = fresh;
        }
    }
}
