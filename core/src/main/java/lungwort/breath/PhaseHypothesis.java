package lungwort.breath;

/**
 * One way a person may breathe, under which the phases of a recording are decoded.
 *
 * @param periodSeconds typical length of a breath
 * @param expirationFlow typical flow curve in expiration, in [0, 1]: near 0 where expiration cannot be heard
 * @param colour typical colour of inspiration; expiration has the opposite; 0 where they are alike
 */
record PhaseHypothesis(double periodSeconds, double expirationFlow, double colour) {
    static final int INSPIRATION = 0;
    static final int TURN = 1;
    static final int EXPIRATION = 2;
    static final int PAUSE = 3;
    static final int STATES = 4;

    private static final double INSPIRATION_FLOW = 0.95;
    private static final double TURN_FLOW = 0.3;
    private static final double PAUSE_FLOW = 0.05;
    private static final double FLOW_SIGMA = 0.3;
    private static final double COLOUR_SIGMA = 0.5;

    /** No frame may speak more strongly than this against a state: one click or word must not break a breath. */
    private static final double MAX_FRAME_COST = 4.5;

    /** Neighbouring frames say nearly the same; together they count as this share of independent ones. */
    private static final double FRAME_WEIGHT = 0.25;

    /** Median length of a stay as a share of the period, per state, and the standard deviation of its logarithm. */
    private static final double[] SHARE = {0.38, 0.06, 0.40, 0.20};

    private static final double[] SHARE_SIGMA = {0.30, 0.60, 0.35, 0.70};

    /** Periods near {@value} s are likelier before anything is heard. */
    private static final double USUAL_PERIOD_SECONDS = 2.7;

    private static final double USUAL_PERIOD_SIGMA = 0.5;

    /** Log of how likely the way is before anything is heard. */
    double priorLog() {
        double z = Math.log(periodSeconds / USUAL_PERIOD_SECONDS) / USUAL_PERIOD_SIGMA;
        return -z * z;
    }

    static double[][] transitions() {
        double half = Math.log(0.5);
        double never = SemiMarkov.NEVER;
        return new double[][] {
            {never, half, half - 0.3, never},
            {never, never, 0, never},
            {Math.log(0.4) - 0.7, never, never, Math.log(0.6)},
            {0, never, never, never},
        };
    }

    /** Log density (per unit of log length) of the stays, shape {@code [STATES][maxFrames + 1]}. */
    double[][] lengths(int maxFrames, double frameSeconds) {
        double[][] logs = new double[STATES][maxFrames + 1];
        for (int s = 0; s < STATES; s++) {
            logs[s][0] = SemiMarkov.NEVER;
            for (int d = 1; d <= maxFrames; d++) {
                double z = Math.log(d * frameSeconds / (SHARE[s] * periodSeconds)) / SHARE_SIGMA[s];
                logs[s][d] = -0.5 * z * z - Math.log(SHARE_SIGMA[s]);
            }
        }
        return logs;
    }

    /** Log likelihood of frames, shape {@code [STATES][frames]}. */
    double[][] frames(double[] flow, double[] colours) {
        double[] mean = {INSPIRATION_FLOW, TURN_FLOW, expirationFlow, PAUSE_FLOW};
        double[] tint = {colour, 0, -colour, 0};
        double[][] logs = new double[STATES][flow.length];
        for (int s = 0; s < STATES; s++) {
            for (int t = 0; t < flow.length; t++) {
                double z = (flow[t] - mean[s]) / FLOW_SIGMA;
                logs[s][t] = FRAME_WEIGHT * (Math.max(-0.5 * z * z, -MAX_FRAME_COST) + tintLog(colours[t], tint[s]));
            }
        }
        return logs;
    }

    private static double tintLog(double value, double mean) {
        double gain = (value - mean) * (value - mean) - value * value;
        return -0.5 * Math.min(gain, 4) / (COLOUR_SIGMA * COLOUR_SIGMA);
    }
}
