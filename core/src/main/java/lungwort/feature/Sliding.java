package lungwort.feature;

import java.util.Arrays;

/** Running minimum, maximum, mean and median over a window centred on each value; beyond the ends the end value goes on. Windows are odd; an even one is made odd by one more. */
final class Sliding {
    private Sliding() {}

    static double[] minimum(double[] x, int window) {
        return extreme(x, window, -1);
    }

    static double[] maximum(double[] x, int window) {
        return extreme(x, window, 1);
    }

    /** Monotone queue (Lemire 2006): each value enters and leaves once. With the end value going on, the window just shrinks at the ends. */
    private static double[] extreme(double[] x, int window, int sign) {
        int half = window / 2;
        int n = x.length;
        double[] result = new double[n];
        int[] queue = new int[n];
        int head = 0;
        int tail = 0;
        int next = 0;
        for (int i = 0; i < n; i++) {
            while (next < n && next <= i + half) {
                while (tail > head && sign * x[queue[tail - 1]] <= sign * x[next]) {
                    tail--;
                }
                queue[tail++] = next++;
            }
            while (queue[head] < i - half) {
                head++;
            }
            result[i] = x[queue[head]];
        }
        return result;
    }

    static double[] mean(double[] x, int window) {
        int half = window / 2;
        int n = x.length;
        double[] sum = new double[n + 2 * half + 1];
        for (int i = 0; i < n + 2 * half; i++) {
            sum[i + 1] = sum[i] + x[Math.max(0, Math.min(n - 1, i - half))];
        }
        double[] result = new double[n];
        int width = 2 * half + 1;
        for (int i = 0; i < n; i++) {
            result[i] = (sum[i + width] - sum[i]) / width;
        }
        return result;
    }

    /** Keeps the window sorted: one value leaves and one enters at each step. */
    static double[] median(double[] x, int window) {
        int half = window / 2;
        int n = x.length;
        int width = 2 * half + 1;
        double[] sorted = new double[width];
        for (int i = 0; i < width; i++) {
            sorted[i] = at(x, i - half);
        }
        Arrays.sort(sorted);
        double[] result = new double[n];
        for (int i = 0; i < n; i++) {
            result[i] = sorted[half];
            replace(sorted, at(x, i - half), at(x, i + half + 1));
        }
        return result;
    }

    private static double at(double[] x, int i) {
        return x[Math.max(0, Math.min(x.length - 1, i))];
    }

    /** In the order of {@link Double#compare}, by which the value that leaves is searched: it tells -0 from 0. */
    private static void replace(double[] sorted, double leaving, double entering) {
        if (Double.compare(leaving, entering) == 0) {
            return;
        }
        int i = Arrays.binarySearch(sorted, leaving);
        if (i < 0) {
            throw new IllegalStateException("the window lost a value");
        }
        while (i + 1 < sorted.length && Double.compare(sorted[i + 1], entering) < 0) {
            sorted[i] = sorted[i + 1];
            i++;
        }
        while (i > 0 && Double.compare(sorted[i - 1], entering) > 0) {
            sorted[i] = sorted[i - 1];
            i--;
        }
        sorted[i] = entering;
    }
}
