package lungwort.breath;

/**
 * How alike inspiration and expiration sound in a decoded recording. Where they are the same in every band and as long as each other, each may be a whole breath: nothing in the sound tells then whether
 * somebody breathes at this rate with a loud expiration or twice as fast.
 *
 * @param flowApart weighted distance of their mean flow over the bands; 0 where they are the same, about 0.5 where expiration is hardly heard
 * @param logLengths natural logarithm of mean length of inspiration over that of expiration
 */
record Likeness(double flowApart, double logLengths) {
    /** Below these they are alike. Set on synthesised breath: at the right rate expiration that is as loud as inspiration gives 0.04 and more, at half of it 0.05 and less. */
    private static final double ALIKE_FLOW = 0.055;

    private static final double ALIKE_LENGTHS = 0.25;

    /** Below these it is likelier that each is a whole breath. */
    private static final double SAME_FLOW = 0.04;

    private static final double SAME_LENGTHS = 0.12;

    static Likeness of(byte[] states, BandFlow flow) {
        double[] weights = flow.weights();
        double[][] sums = new double[PhaseHypothesis.STATES][weights.length];
        double[] frames = new double[PhaseHypothesis.STATES];
        double[] stays = new double[PhaseHypothesis.STATES];
        for (int t = 0; t < states.length; t++) {
            int s = states[t];
            frames[s]++;
            stays[s] += t == 0 || states[t - 1] != s ? 1 : 0;
            for (int b = 0; b < weights.length; b++) {
                sums[s][b] += flow.flow()[t][b];
            }
        }
        int in = PhaseHypothesis.INSPIRATION;
        int ex = PhaseHypothesis.EXPIRATION;
        if (frames[in] == 0 || frames[ex] == 0) {
            return new Likeness(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
        }
        double apart = 0;
        for (int b = 0; b < weights.length; b++) {
            double d = sums[in][b] / frames[in] - sums[ex][b] / frames[ex];
            apart += weights[b] * d * d;
        }
        return new Likeness(Math.sqrt(apart), Math.log(frames[in] / stays[in] / (frames[ex] / stays[ex])));
    }

    /** True if inspiration and expiration cannot be told apart. */
    boolean alike() {
        return flowApart < ALIKE_FLOW && Math.abs(logLengths) < ALIKE_LENGTHS;
    }

    /** True if each is likelier a whole breath. */
    boolean same() {
        return flowApart < SAME_FLOW && Math.abs(logLengths) < SAME_LENGTHS;
    }
}
