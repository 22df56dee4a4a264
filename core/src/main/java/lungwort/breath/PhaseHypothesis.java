package lungwort.breath;

/**
 * One way a person may breathe, under which the phases of a recording are decoded.
 *
 * @param periodSeconds typical length of a breath
 * @param inspirationFlow typical flow in inspiration, in [0, 1]
 * @param expirationFlow typical flow in expiration, in [0, 1.1]: near 0 where expiration cannot be heard
 * @param longExpiration whether expiration lasts twice as long as inspiration, not about as long
 * @param priorLog log of how likely the way is before the recording is heard
 */
record PhaseHypothesis(
        double periodSeconds, double inspirationFlow, double expirationFlow, boolean longExpiration, double priorLog) {
    static final int INSPIRATION = 0;
    static final int TURN = 1;
    static final int EXPIRATION = 2;
    static final int PAUSE = 3;
    static final int STATES = 4;

    /** Longest stay in one state, in seconds. */
    static final double MAX_STAY_SECONDS = 6;

    private static final double TURN_FLOW = 0.3;
    private static final double PAUSE_FLOW = 0.05;

    /** Median length of a stay as a share of the period, per state, and the standard deviation of its logarithm. */
    private static final double[] SHARE = {0.38, 0.06, 0.42, 0.20};

    /** The same where expiration is drawn out, as when the airways are narrow. */
    private static final double[] LONG_EXPIRATION_SHARE = {0.25, 0.06, 0.55, 0.20};

    private static final double[] SHARE_SIGMA = {0.30, 0.60, 0.35, 0.60};

    /** What each stay costs: more phases must explain more. */
    private static final double STAY_COST = 0.5;

    /** Log weights, not probabilities, of turn and of expiration after inspiration, of inspiration and of pause after expiration. */
    private static final double[] NEXT_LOG = {-0.7, -1.0, -2.0, -0.4};

    private static final double LONG_EXPIRATION_LOG = -0.3;

    /**
     * The same timing with other flows.
     *
     * @param flows of inspiration and expiration, and the log of how likely they are
     */
    PhaseHypothesis with(double[] flows) {
        double rarer = longExpiration ? LONG_EXPIRATION_LOG : 0;
        return new PhaseHypothesis(periodSeconds, flows[0], flows[1], longExpiration, priorLog + flows[2] + rarer);
    }

    /** Typical flow per state, before anything is learnt from the recording. */
    double[] typicalFlow() {
        return new double[] {inspirationFlow, TURN_FLOW, expirationFlow, PAUSE_FLOW};
    }

    /** The decoder of this period. */
    SemiMarkov decoder(double frameSeconds, int frames) {
        int longest = Math.max(1, Math.min(frames, (int) (MAX_STAY_SECONDS / frameSeconds)));
        double[][] logs = new double[STATES][longest + 1];
        double[] share = longExpiration ? LONG_EXPIRATION_SHARE : SHARE;
        for (int s = 0; s < STATES; s++) {
            logs[s][0] = SemiMarkov.NEVER;
            for (int d = 1; d <= longest; d++) {
                double z = Math.log(d * frameSeconds / (share[s] * periodSeconds)) / SHARE_SIGMA[s];
                logs[s][d] = -0.5 * z * z - Math.log(SHARE_SIGMA[s]) - STAY_COST;
            }
        }
        return new SemiMarkov(transitions(), logs);
    }

    private static double[][] transitions() {
        double never = SemiMarkov.NEVER;
        return new double[][] {
            {never, NEXT_LOG[0], NEXT_LOG[1], never},
            {never, never, 0, never},
            {NEXT_LOG[2], never, never, NEXT_LOG[3]},
            {0, never, never, never},
        };
    }
}
