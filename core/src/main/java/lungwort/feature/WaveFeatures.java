package lungwort.feature;

import java.util.Arrays;

/** What the waveform itself tells: how spiky it is, also after its predictable part is taken out, and how wide its largest deflections are. */
final class WaveFeatures {
    private static final int ORDER = 8;
    private static final int BLOCK = 400;
    private static final int LARGEST = 12;

    private WaveFeatures() {}

    static void write(FeatureFrames o, int fromStep, int toStep, FeatureWriter w) {
        int perStep = FeatureFrames.RATE_HZ / EnvelopeFrames.RATE_HZ;
        double[] y = Arrays.copyOfRange(
                o.wave, Math.min(o.wave.length, fromStep * perStep), Math.min(o.wave.length, toStep * perStep));
        double[] r = residual(y);
        spiky("wave", "band-passed samples", y, w);
        spiky(
                "residual",
                "samples less their linear prediction of order 8 (autocorrelation method, Makhoul 1975)",
                r,
                w);
        widths(y, w);
    }

    private static void spiky(String name, String what, double[] y, FeatureWriter w) {
        Spread all = new Spread(y, 0, y.length);
        double peak = 0;
        for (double v : y) {
            peak = Math.max(peak, Math.abs(v));
        }
        w.put(name, "kurtosis", "1", "kurtosis of the " + what, all.kurtosis());
        w.put(name, "crest", "1", "largest over the deviation of the " + what, peak / (all.deviation() + 1e-12));
        double[] block = new double[Math.max(1, y.length / BLOCK)];
        Arrays.setAll(block, i -> new Spread(y, i * BLOCK, Math.min(y.length, (i + 1) * BLOCK)).kurtosis());
        Spread blocks = new Spread(block, 0, block.length);
        w.put(name, "blockKurtosis.median", "1", "kurtosis of 50 ms blocks", blocks.percentile(50));
        w.put(name, "blockKurtosis.p90", "1", "kurtosis of 50 ms blocks", blocks.percentile(90));
        w.put(name, "blockKurtosis.max", "1", "kurtosis of 50 ms blocks", blocks.max());
    }

    /** Linear prediction by Levinson and Durbin's recursion. */
    private static double[] residual(double[] y) {
        double[] r = new double[ORDER + 1];
        for (int k = 0; k <= ORDER; k++) {
            for (int i = k; i < y.length; i++) {
                r[k] += y[i] * y[i - k];
            }
        }
        double[] a = levinson(r);
        double[] e = new double[y.length];
        for (int i = 0; i < y.length; i++) {
            double sum = y[i];
            for (int k = 1; k <= Math.min(ORDER, i); k++) {
                sum += a[k] * y[i - k];
            }
            e[i] = sum;
        }
        return e;
    }

    private static double[] levinson(double[] r) {
        double[] a = new double[ORDER + 1];
        a[0] = 1;
        double error = r[0] * 1.001 + 1e-12;
        for (int i = 1; i <= ORDER; i++) {
            double sum = r[i];
            for (int k = 1; k < i; k++) {
                sum += a[k] * r[i - k];
            }
            double reflection = -sum / error;
            double[] b = a.clone();
            for (int k = 1; k < i; k++) {
                b[k] = a[k] + reflection * a[i - k];
            }
            b[i] = reflection;
            a = b;
            error *= 1 - reflection * reflection;
        }
        return a;
    }

    /** Widths between zero crossings, of all deflections and of the largest ones. */
    private static void widths(double[] y, FeatureWriter w) {
        int[] crossing = crossings(y);
        int n = Math.max(0, crossing.length - 1);
        double[] width = new double[n];
        double[] height = new double[n];
        for (int i = 0; i < n; i++) {
            width[i] = (crossing[i + 1] - crossing[i]) * 1000.0 / FeatureFrames.RATE_HZ;
            for (int k = crossing[i]; k < crossing[i + 1]; k++) {
                height[i] = Math.max(height[i], Math.abs(y[k]));
            }
        }
        boolean enough = n > 6;
        int[] largest = largest(height);
        double[] largeWidth = new double[Math.max(1, largest.length)];
        double[] twoCycles = new double[Math.max(1, largest.length)];
        for (int i = 0; i < largest.length; i++) {
            largeWidth[i] = width[largest[i]];
            int first = Math.max(0, largest[i] - 1);
            int last = Math.min(crossing.length - 1, largest[i] + 3);
            twoCycles[i] = (crossing[last] - crossing[first]) * 1000.0 / FeatureFrames.RATE_HZ;
        }
        w.put(
                "deflection.largest",
                "medianMs",
                "ms",
                "width of the 12 largest deflections",
                enough ? new Spread(largeWidth, 0, largeWidth.length).percentile(50) : 0);
        w.put(
                "deflection.largest",
                "twoCyclesMs",
                "ms",
                "duration of two cycles around the 12 largest deflections",
                enough ? new Spread(twoCycles, 0, twoCycles.length).percentile(50) : 0);
        w.put("deflection", "meanMs", "ms", "width of all deflections", enough ? new Spread(width, 0, n).mean() : 0);
        w.put(
                "deflection",
                "medianMs",
                "ms",
                "width of all deflections",
                enough ? new Spread(width, 0, n).percentile(50) : 0);
        w.put("deflection", "rate", "1", "zero crossings a sample", (double) crossing.length / Math.max(1, y.length));
    }

    private static int[] crossings(double[] y) {
        int[] found = new int[y.length];
        int n = 0;
        for (int i = 1; i < y.length; i++) {
            if (y[i] < 0 != y[i - 1] < 0) {
                found[n++] = i;
            }
        }
        return Arrays.copyOf(found, n);
    }

    private static int[] largest(double[] height) {
        Integer[] order = new Integer[height.length];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (i, j) -> Double.compare(height[j], height[i]));
        int[] top = new int[Math.min(LARGEST, order.length)];
        Arrays.setAll(top, i -> order[i]);
        return top;
    }
}
