package lungwort.classify;

/**
 * Makes a probability honest: {@code 1 / (1 + exp(-(slope logit(p) + offset)))}, fitted on probabilities of cases the model was not trained on (Platt 1999).
 *
 * @param slope positive where the model ranks better than chance
 * @param offset on the logit scale
 */
public record PlattScale(double slope, double offset) {
    /** Leaves probabilities as they are. */
    public static final PlattScale NONE = new PlattScale(1, 0);

    private static final int STEPS = 50;

    /** Small ridge towards {@link #NONE}, so that separable cases do not run away. */
    private static final double RIDGE = 1e-2;

    /** The calibrated probability. */
    public double apply(double p) {
        return Softmax.logistic(slope * ContextFeatures.logit(p) + offset);
    }

    /** Newton's method on the penalised log-likelihood. */
    static PlattScale fit(double[] p, boolean[] truth) {
        double a = 1;
        double b = 0;
        for (int step = 0; step < STEPS; step++) {
            double ga = RIDGE * (a - 1);
            double gb = RIDGE * b;
            double haa = RIDGE;
            double hab = 0;
            double hbb = RIDGE;
            for (int i = 0; i < p.length; i++) {
                double z = ContextFeatures.logit(p[i]);
                double q = Softmax.logistic(a * z + b);
                double error = q - (truth[i] ? 1 : 0);
                double h = q * (1 - q);
                ga += error * z;
                gb += error;
                haa += h * z * z;
                hab += h * z;
                hbb += h;
            }
            double det = haa * hbb - hab * hab;
            double da = (hbb * ga - hab * gb) / det;
            double db = (haa * gb - hab * ga) / det;
            a -= da;
            b -= db;
            if (Math.abs(da) + Math.abs(db) < 1e-10) {
                break;
            }
        }
        return new PlattScale(a, b);
    }
}
