package lungwort.breath;

import java.util.Arrays;

/**
 * The likeliest sequence of states whose stays have explicit length distributions (hidden semi-Markov model; Viterbi search, Rabiner 1989 section IV.D).
 *
 * <p>The first and the last stay may be cut by the ends of the recording: they are given the best of all lengths at least as long.
 */
final class SemiMarkov {
    /** Log probability of what cannot be. */
    static final double NEVER = -1e9;

    private final double[][] transition;
    private final double[][] lengthLog;
    private final double[][] cutLengthLog;
    private final int states;
    private final int maxLength;

    /**
     * @param transition log probability of the next state, shape {@code [states][states]}
     * @param lengthLog log probability of staying n frames, shape {@code [states][maxLength + 1]}; index 0 is not used
     */
    SemiMarkov(double[][] transition, double[][] lengthLog) {
        this.transition = transition;
        this.lengthLog = lengthLog;
        this.states = transition.length;
        this.maxLength = lengthLog[0].length - 1;
        this.cutLengthLog = new double[states][];
        for (int s = 0; s < states; s++) {
            cutLengthLog[s] = lengthLog[s].clone();
            for (int d = maxLength - 1; d >= 0; d--) {
                cutLengthLog[s][d] = Math.max(cutLengthLog[s][d], cutLengthLog[s][d + 1]);
            }
        }
    }

    /**
     * A path and its log probability.
     *
     * @param logProbability of path and frames together
     * @param states shape {@code [frames]}
     */
    record Path(double logProbability, byte[] states) {}

    /**
     * @param frameLog log likelihood of each frame under each state, shape {@code [states][frames]}, at least one frame
     */
    Path decode(double[][] frameLog) {
        return new Search(frameLog).run();
    }

    private final class Search {
        private final int frames;
        private final double[][] sums;
        private final double[][] best;
        private final double[][] entry;
        private final int[][] length;
        private final int[][] entryFrom;

        Search(double[][] frameLog) {
            frames = frameLog[0].length;
            sums = new double[states][frames + 1];
            for (int s = 0; s < states; s++) {
                for (int t = 0; t < frames; t++) {
                    sums[s][t + 1] = sums[s][t] + frameLog[s][t];
                }
            }
            best = new double[states][frames + 1];
            entry = new double[states][frames + 1];
            length = new int[states][frames + 1];
            entryFrom = new int[states][frames + 1];
        }

        Path run() {
            for (int t = 1; t <= frames; t++) {
                for (int s = 0; s < states; s++) {
                    endStay(s, t);
                }
                for (int s = 0; s < states; s++) {
                    enter(s, t);
                }
            }
            return trace();
        }

        /** The best stay in a state that ends before frame t. */
        private void endStay(int s, int t) {
            double[] logs = t == frames ? cutLengthLog[s] : lengthLog[s];
            double top = NEVER;
            int topLength = 1;
            for (int d = 1; d <= Math.min(t - 1, maxLength); d++) {
                double value = entry[s][t - d] + logs[d] - sums[s][t - d];
                if (value > top) {
                    top = value;
                    topLength = d;
                }
            }
            if (t <= maxLength && cutLengthLog[s][t] > top) {
                top = cutLengthLog[s][t];
                topLength = t;
            }
            best[s][t] = top + sums[s][t];
            length[s][t] = topLength;
        }

        private void enter(int s, int t) {
            double top = Double.NEGATIVE_INFINITY;
            for (int from = 0; from < states; from++) {
                double value = best[from][t] + transition[from][s];
                if (value > top) {
                    top = value;
                    entryFrom[s][t] = from;
                }
            }
            entry[s][t] = top;
        }

        private Path trace() {
            int s = 0;
            for (int q = 1; q < states; q++) {
                if (best[q][frames] > best[s][frames]) {
                    s = q;
                }
            }
            double logProbability = best[s][frames];
            byte[] path = new byte[frames];
            int t = frames;
            while (t > 0) {
                int from = t - length[s][t];
                Arrays.fill(path, from, t, (byte) s);
                t = from;
                s = entryFrom[s][t];
            }
            return new Path(logProbability, path);
        }
    }
}
