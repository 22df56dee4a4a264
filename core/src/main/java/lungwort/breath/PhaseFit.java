package lungwort.breath;

import lungwort.breath.SemiMarkov.Path;

/**
 * Decodes the phases of a recording under a hypothesis, and learns from the recording what each phase sounds like in each band: decoding and learning take turns
 * (segmental k-means with a prior, Rabiner 1989 section V.C).
 */
final class PhaseFit {
    private static final int ROUNDS = 2;
    private static final double FLOW_SIGMA = 0.28;

    /** No frame may speak more strongly than this against a state: one click or word must not break a breath. */
    private static final double MAX_FRAME_COST = 4.5;

    /** Neighbouring frames say nearly the same; each counts as this share of an independent one. */
    private static final double FRAME_WEIGHT = 0.25;

    /** Seconds of sound that weigh as much as the hypothesis does, per state: what a pause sounds like is known best. */
    private static final double[] PRIOR_SECONDS = {1, 4, 1, 4};

    private final BandFlow flow;
    private final double frameSeconds;
    private final SemiMarkov decoder;

    PhaseFit(BandFlow flow, double frameSeconds, SemiMarkov decoder) {
        this.flow = flow;
        this.frameSeconds = frameSeconds;
        this.decoder = decoder;
    }

    Path fit(PhaseHypothesis hypothesis) {
        double[] typical = hypothesis.typicalFlow();
        double[][] means = new double[PhaseHypothesis.STATES][flow.weights().length];
        for (int s = 0; s < means.length; s++) {
            java.util.Arrays.fill(means[s], typical[s]);
        }
        Path path = decoder.decode(frameLogs(means));
        for (int round = 0; round < ROUNDS; round++) {
            path = decoder.decode(frameLogs(learn(path.states(), typical)));
        }
        return path;
    }

    private double[][] learn(byte[] states, double[] typical) {
        int bands = flow.weights().length;
        double[][] means = new double[typical.length][bands];
        double[] counts = new double[typical.length];
        for (int t = 0; t < states.length; t++) {
            if (flow.live()[t]) {
                counts[states[t]]++;
                for (int b = 0; b < bands; b++) {
                    means[states[t]][b] += flow.flow()[t][b];
                }
            }
        }
        for (int s = 0; s < means.length; s++) {
            double prior = PRIOR_SECONDS[s] / frameSeconds;
            for (int b = 0; b < bands; b++) {
                means[s][b] = (prior * typical[s] + means[s][b]) / (prior + counts[s]);
            }
        }
        return means;
    }

    /** Log likelihood of the frames, shape {@code [states][frames]}; nothing is held against a dead frame. */
    private double[][] frameLogs(double[][] means) {
        double[][] logs = new double[means.length][flow.flow().length];
        for (int s = 0; s < means.length; s++) {
            for (int t = 0; t < logs[s].length; t++) {
                logs[s][t] = flow.live()[t] ? -FRAME_WEIGHT * cost(flow.flow()[t], means[s]) : 0;
            }
        }
        return logs;
    }

    private double cost(double[] frame, double[] mean) {
        double sum = 0;
        for (int b = 0; b < frame.length; b++) {
            double d = frame[b] - mean[b];
            sum += flow.weights()[b] * d * d;
        }
        return Math.min(0.5 * sum / (FLOW_SIGMA * FLOW_SIGMA), MAX_FRAME_COST);
    }
}
