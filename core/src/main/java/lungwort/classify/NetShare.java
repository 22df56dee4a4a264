package lungwort.classify;

import java.util.Arrays;

/**
 * Adds what a net says of a recording to its class probabilities: the log of each class is multiplied by a slope; to it comes, for each of the net's questions whose answer is yes in that class, a share of the net's
 * logit and an offset. So the net has a say of its own beside the stages that see its logits among hundreds of other columns.
 *
 * @param slope of the log probabilities
 * @param shares of the logits, shape {@code [OUTPUTS]}
 * @param offsets shape {@code [OUTPUTS]}
 */
@SuppressWarnings("ArrayRecordComponent") // numbers of a model, never compared
record NetShare(double slope, double[] shares, double[] offsets) {
    private static final double LEAST = 1e-4;

    /** Half of it times the squared distance from "no say" is added to the summed loss. */
    private static final double RIDGE = 2;

    private static final int STEPS = 50;
    private static final int SIZE = 1 + 2 * ChestNet.OUTPUTS;

    NetShare {
        boolean finite = Double.isFinite(slope)
                && Arrays.stream(shares).allMatch(Double::isFinite)
                && Arrays.stream(offsets).allMatch(Double::isFinite);
        if (!finite || shares.length != ChestNet.OUTPUTS || offsets.length != ChestNet.OUTPUTS) {
            throw new IllegalArgumentException("a share of the net that is no number");
        }
    }

    /** Leaves probabilities as they are. */
    static NetShare none() {
        return of(start());
    }

    private static double[] start() {
        double[] v = new double[SIZE];
        v[0] = 1;
        return v;
    }

    private static NetShare of(double[] v) {
        return new NetShare(
                v[0],
                Arrays.copyOfRange(v, 1, 1 + ChestNet.OUTPUTS),
                Arrays.copyOfRange(v, 1 + ChestNet.OUTPUTS, SIZE));
    }

    /**
     * @param probabilities shape {@code [5]}, in the order of {@link RecordingClass}
     * @param logits {@link ChestNet#logits}
     * @return probabilities, same shape
     */
    double[] apply(double[] probabilities, double[] logits) {
        double[] v = new double[SIZE];
        v[0] = slope;
        System.arraycopy(shares, 0, v, 1, ChestNet.OUTPUTS);
        System.arraycopy(offsets, 0, v, 1 + ChestNet.OUTPUTS, ChestNet.OUTPUTS);
        return probabilities(rows(probabilities, logits), v);
    }

    private static double[] probabilities(double[][] rows, double[] v) {
        return Softmax.inPlace(
                Arrays.stream(rows).mapToDouble(row -> product(row, v)).toArray());
    }

    private static double product(double[] a, double[] b) {
        double sum = 0;
        for (int k = 0; k < a.length; k++) {
            sum += a[k] * b[k];
        }
        return sum;
    }

    /** What slope, shares and offsets multiply, for each class. */
    private static double[][] rows(double[] probabilities, double[] logits) {
        double[][] rows = new double[RecordingClass.COUNT][SIZE];
        for (RecordingClass c : RecordingClass.values()) {
            double[] row = rows[c.ordinal()];
            row[0] = Math.log(probabilities[c.ordinal()] + LEAST);
            for (int m = 0; m < ChestNet.OUTPUTS; m++) {
                if (yes(m, c)) {
                    row[1 + m] = logits[m];
                    row[1 + ChestNet.OUTPUTS + m] = 1;
                }
            }
        }
        return rows;
    }

    private static boolean yes(int question, RecordingClass c) {
        return switch (question) {
            case ChestNet.CONTINUOUS -> c.continuous();
            case ChestNet.DISCONTINUOUS -> c.discontinuous();
            default -> c == RecordingClass.POOR_QUALITY;
        };
    }

    /**
     * The likeliest share, held back a little, by Newton's method on the multinomial log-likelihood (it has one maximum: the scores are linear in what is fitted).
     *
     * @param probabilities of recordings whose patients the earlier stages had not seen, shape {@code [n][5]}
     * @param logits of the same, by nets that had not seen their patients either, shape {@code [n][3]}
     * @param labels what listeners called them
     */
    static NetShare fit(double[][] probabilities, double[][] logits, RecordingClass[] labels) {
        double[][][] rows = new double[labels.length][][];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = rows(probabilities[i], logits[i]);
        }
        double[] v = start();
        double loss = loss(rows, labels, v);
        for (int step = 0; step < STEPS; step++) {
            double[] move = move(rows, labels, v);
            double[] next = moved(v, move);
            double nextLoss = loss(rows, labels, next);
            // A whole step can overshoot far from the maximum.
            while (nextLoss > loss && Arrays.stream(move).anyMatch(m -> Math.abs(m) > 1e-9)) {
                move = Arrays.stream(move).map(m -> m / 2).toArray();
                next = moved(v, move);
                nextLoss = loss(rows, labels, next);
            }
            if (nextLoss >= loss) {
                break;
            }
            v = next;
            loss = nextLoss;
        }
        return of(v);
    }

    private static double[] moved(double[] v, double[] move) {
        double[] next = v.clone();
        for (int k = 0; k < SIZE; k++) {
            next[k] -= move[k];
        }
        return next;
    }

    private static double loss(double[][][] rows, RecordingClass[] labels, double[] v) {
        double[] start = start();
        double loss = 0;
        for (int k = 0; k < SIZE; k++) {
            loss += RIDGE / 2 * (v[k] - start[k]) * (v[k] - start[k]);
        }
        for (int i = 0; i < rows.length; i++) {
            loss -= Math.log(Math.max(Double.MIN_NORMAL, probabilities(rows[i], v)[labels[i].ordinal()]));
        }
        return loss;
    }

    private static double[] move(double[][][] rows, RecordingClass[] labels, double[] v) {
        double[] start = start();
        double[] gradient = new double[SIZE];
        double[][] curvature = new double[SIZE][SIZE];
        for (int k = 0; k < SIZE; k++) {
            gradient[k] = RIDGE * (v[k] - start[k]);
            curvature[k][k] = RIDGE;
        }
        for (int i = 0; i < rows.length; i++) {
            double[] p = probabilities(rows[i], v);
            double[] mean = new double[SIZE];
            for (int c = 0; c < p.length; c++) {
                for (int k = 0; k < SIZE; k++) {
                    mean[k] += p[c] * rows[i][c][k];
                }
            }
            double[] truth = rows[i][labels[i].ordinal()];
            for (int k = 0; k < SIZE; k++) {
                gradient[k] += mean[k] - truth[k];
                for (int j = 0; j <= k; j++) {
                    for (int c = 0; c < p.length; c++) {
                        curvature[k][j] += p[c] * (rows[i][c][k] - mean[k]) * (rows[i][c][j] - mean[j]);
                    }
                }
            }
        }
        return RidgeLogistic.solve(curvature, gradient);
    }
}
