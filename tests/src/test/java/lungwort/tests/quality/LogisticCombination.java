package lungwort.tests.quality;

import java.util.List;

/** Logistic regression on standardised, clipped numbers, classes weighted alike, by gradient descent with a small ridge: the plainest combination of measures. */
final class LogisticCombination {
    private static final double CLIP = 3;
    private static final double RIDGE = 0.02;
    private static final double STEP = 0.02;
    private static final int ROUNDS = 600;

    private final double[] mean;
    private final double[] scale;
    private final double[] weights;

    private LogisticCombination(int n) {
        mean = new double[n];
        scale = new double[n];
        weights = new double[n + 1];
    }

    /** Learns from all rows but those of one fold. */
    static LogisticCombination fit(List<double[]> rows, List<Boolean> labels, List<Integer> folds, int leftOut) {
        LogisticCombination fit = new LogisticCombination(rows.get(0).length);
        List<double[]> kept = java.util.stream.IntStream.range(0, rows.size())
                .filter(i -> folds.get(i) != leftOut)
                .mapToObj(rows::get)
                .toList();
        fit.standardise(kept);
        int positives = 0;
        for (int i = 0; i < rows.size(); i++) {
            positives += labels.get(i) && folds.get(i) != leftOut ? 1 : 0;
        }
        double[][] z = rows.stream().map(fit::standardised).toArray(double[][]::new);
        for (int round = 0; round < ROUNDS; round++) {
            double[] gradient = new double[fit.weights.length];
            for (int i = 0; i < z.length; i++) {
                if (folds.get(i) != leftOut) {
                    double share = labels.get(i) ? 0.5 / positives : 0.5 / (kept.size() - positives);
                    double error = share * (1 / (1 + Math.exp(-fit.linear(z[i]))) - (labels.get(i) ? 1 : 0));
                    for (int k = 0; k < z[i].length; k++) {
                        gradient[k] += error * z[i][k];
                    }
                    gradient[z[i].length] += error;
                }
            }
            for (int k = 0; k < gradient.length; k++) {
                double shrink = k < fit.mean.length ? RIDGE * fit.weights[k] : 0;
                fit.weights[k] -= STEP * (gradient[k] + shrink);
            }
        }
        return fit;
    }

    double score(double[] row) {
        return linear(standardised(row));
    }

    private void standardise(List<double[]> rows) {
        for (int k = 0; k < mean.length; k++) {
            double sum = 0;
            double squares = 0;
            for (double[] row : rows) {
                sum += row[k];
                squares += row[k] * row[k];
            }
            mean[k] = sum / rows.size();
            scale[k] = Math.sqrt(Math.max(1e-12, squares / rows.size() - mean[k] * mean[k]));
        }
    }

    private double[] standardised(double[] row) {
        double[] z = new double[row.length];
        for (int k = 0; k < z.length; k++) {
            z[k] = Math.max(-CLIP, Math.min(CLIP, (row[k] - mean[k]) / scale[k]));
        }
        return z;
    }

    private double linear(double[] z) {
        double sum = weights[z.length];
        for (int k = 0; k < z.length; k++) {
            sum += weights[k] * z[k];
        }
        return sum;
    }
}
