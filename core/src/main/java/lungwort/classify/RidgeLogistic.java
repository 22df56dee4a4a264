package lungwort.classify;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;

/**
 * Logistic regression with a ridge on standardised, clipped columns, by Newton's method (Hastie et al. 2009, section 4.4.1, with the penalty of 3.4.1).
 *
 * @param mean of each column
 * @param scale standard deviation of each column, positive
 * @param weights of the standardised columns
 * @param offset log-odds where every column is at its mean
 */
@SuppressWarnings("ArrayRecordComponent") // numbers of a model, never compared
record RidgeLogistic(double[] mean, double[] scale, double[] weights, double offset) {
    /** A column counts for no more than so many standard deviations: one odd measure must not decide alone. */
    private static final double CLIP = 4;

    private static final double LEAST_SCALE = 1e-6;
    private static final int MAX_STEPS = 30;
    private static final double TOLERANCE = 1e-9;

    RidgeLogistic {
        boolean same = mean.length == scale.length && mean.length == weights.length;
        boolean finite = Double.isFinite(offset)
                && Arrays.stream(mean).allMatch(Double::isFinite)
                && Arrays.stream(weights).allMatch(Double::isFinite)
                && Arrays.stream(scale).allMatch(v -> v > 0 && Double.isFinite(v));
        if (!same || !finite) {
            throw new IllegalArgumentException("columns of different number, or numbers that are none");
        }
    }

    /** Log-odds of a row. */
    double logOdds(double[] row) {
        double sum = offset;
        for (int k = 0; k < weights.length; k++) {
            sum += weights[k] * standardised(row[k], k);
        }
        return sum;
    }

    /** What each column adds to the log-odds, against a row in which it is at its mean. */
    double[] parts(double[] row) {
        double[] parts = new double[weights.length];
        for (int k = 0; k < parts.length; k++) {
            parts[k] = weights[k] * standardised(row[k], k);
        }
        return parts;
    }

    private double standardised(double value, int k) {
        return Math.max(-CLIP, Math.min(CLIP, (value - mean[k]) / scale[k]));
    }

    /**
     * @param rows at least one of each kind
     * @param truth of each row
     * @param ridge half of it times the squared weights is added to the summed loss
     */
    static RidgeLogistic fit(double[][] rows, boolean[] truth, double ridge) {
        int p = rows[0].length;
        double[] mean = new double[p];
        double[] scale = new double[p];
        for (int k = 0; k < p; k++) {
            int column = k;
            double[] values = Arrays.stream(rows).mapToDouble(r -> r[column]).toArray();
            mean[k] = lungwort.signal.Statistics.mean(values);
            scale[k] = Math.max(LEAST_SCALE, lungwort.signal.Statistics.standardDeviation(values));
        }
        RidgeLogistic start = new RidgeLogistic(mean, scale, new double[p], 0);
        double[][] z = new double[rows.length][p + 1];
        for (int i = 0; i < z.length; i++) {
            for (int k = 0; k < p; k++) {
                z[i][k] = start.standardised(rows[i][k], k);
            }
            z[i][p] = 1;
        }
        double[] w = newton(z, truth, ridge);
        return new RidgeLogistic(mean, scale, Arrays.copyOf(w, p), w[p]);
    }

    private static double[] newton(double[][] z, boolean[] truth, double ridge) {
        int n = z[0].length;
        double[] w = new double[n];
        for (int step = 0; step < MAX_STEPS; step++) {
            double[] gradient = new double[n];
            double[][] curvature = new double[n][n];
            for (int k = 0; k < n; k++) {
                // The offset is hardly held back, only so far that separable rows do not run away.
                double own = k == n - 1 ? 1e-6 : ridge;
                gradient[k] = own * w[k];
                curvature[k][k] = own;
            }
            for (int i = 0; i < z.length; i++) {
                addRow(z[i], truth[i], w, gradient, curvature);
            }
            double[] move = solve(curvature, gradient);
            double largest = 0;
            for (int k = 0; k < n; k++) {
                w[k] -= move[k];
                largest = Math.max(largest, Math.abs(move[k]));
            }
            if (largest < TOLERANCE) {
                break;
            }
        }
        return w;
    }

    private static void addRow(double[] z, boolean truth, double[] w, double[] gradient, double[][] curvature) {
        double sum = 0;
        for (int k = 0; k < w.length; k++) {
            sum += w[k] * z[k];
        }
        double p = Softmax.logistic(sum);
        double error = p - (truth ? 1 : 0);
        double bend = p * (1 - p);
        for (int k = 0; k < w.length; k++) {
            gradient[k] += error * z[k];
            double row = bend * z[k];
            for (int j = 0; j <= k; j++) {
                curvature[k][j] += row * z[j];
            }
        }
    }

    /**
     * Newton's step.
     *
     * @param lower the curvature, of which only what lies on and under the diagonal is read; positive definite
     */
    static double[] solve(double[][] lower, double[] gradient) {
        for (int k = 0; k < lower.length; k++) {
            for (int j = 0; j < k; j++) {
                lower[j][k] = lower[k][j];
            }
        }
        return new CholeskyDecomposition(new Array2DRowRealMatrix(lower, false))
                .getSolver()
                .solve(new ArrayRealVector(gradient, false))
                .toArray();
    }
}
