package lungwort.classify;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.concurrent.ForkJoinPool;

/** Made-up rows whose class depends on two of their features, and small helpers for tests of learners. */
final class Rows {
    final float[][] x;
    final int[] y;
    final double[] weight;

    private Rows(float[][] x, int[] y) {
        this.x = x;
        this.y = y;
        this.weight = new double[y.length];
        Arrays.fill(weight, 1);
    }

    /** Rows of normal features; the class is the quadrant of the first two (four classes, or their exclusive or for two). */
    static Rows quadrants(int n, int features, int classes, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        float[][] x = new float[n][features];
        int[] y = new int[n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < features; j++) {
                x[i][j] = (float) random.nextGaussian();
            }
            int quadrant = (x[i][0] > 0 ? 1 : 0) + (x[i][1] > 0 ? 2 : 0);
            y[i] = classes == 2 ? Integer.bitCount(quadrant) % 2 : quadrant % classes;
        }
        return new Rows(x, y);
    }

    static double accuracy(Learner learner, Rows rows) {
        int right = 0;
        for (int i = 0; i < rows.y.length; i++) {
            right += likeliest(learner.probabilities(rows.x[i])) == rows.y[i] ? 1 : 0;
        }
        return (double) right / rows.y.length;
    }

    static int likeliest(double[] p) {
        int best = 0;
        for (int c = 1; c < p.length; c++) {
            best = p[c] > p[best] ? c : best;
        }
        return best;
    }

    static byte[] bytes(Learner learner) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        learner.write(new DataOutputStream(out));
        return out.toByteArray();
    }

    static DataInputStream in(byte[] bytes) {
        return new DataInputStream(new ByteArrayInputStream(bytes));
    }

    /** Runs work whose parallel streams then use so many threads. */
    static <T> T withThreads(int threads, Callable<T> work) throws Exception {
        ForkJoinPool pool = new ForkJoinPool(threads);
        try {
            return pool.submit(work).get();
        } finally {
            pool.shutdown();
        }
    }
}
