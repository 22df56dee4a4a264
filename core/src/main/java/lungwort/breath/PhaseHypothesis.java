package lungwort.breath;

/**
 * One way a person may breathe, under which the phases of a recording are decoded.
 *
 * @param periodSeconds typical length of a breath
 * @param inspirationFlow typical flow in inspiration, in [0, 1]
 * @param expirationFlow typical flow in expiration, in [0, 1.1]: near 0 where expiration cannot be heard
 * @param priorLog log of how likely the way is before the recording is heard
 */
record PhaseHypothesis(double periodSeconds, double inspirationFlow, double expirationFlow, double priorLog) {
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

    private static final double[] SHARE_SIGMA = {0.30, 0.60, 0.35, 0.60};

    /** What each stay costs: more phases must explain more. */
    private static final double STAY_COST = 0.5;

    /** Log probabilities of turn and of expiration after inspiration, of inspiration and of pause after expiration. */
    private static final double[] NEXT_LOG = {-0.7, -1.0, -2.0, -0.4};

    /** Typical flow per state, before anything is learnt from the recording. */
    double[] typicalFlow() {
        return new double[] {inspirationFlow, TURN_FLOW, expirationFlow, PAUSE_FLOW};
    }

    /** The decoder of this period. */
    SemiMarkov decoder(double frameSeconds, int frames) {
        int longest = Math.max(1, Math.min(frames, (int) (MAX_STAY_SECONDS / frameSeconds)));
        double[][] logs = new double[STATES][longest + 1];
        for (int s = 0; s < STATES; s++) {
            logs[s][0] = SemiMarkov.NEVER;
            for (int d = 1; d <= longest; d++) {
                double z = Math.log(d * frameSeconds / (SHARE[s] * periodSeconds)) / SHARE_SIGMA[s];
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
