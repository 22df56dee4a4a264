package lungwort.classify;

import java.util.Arrays;

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

    private static final int HALVINGS = 40;

    /** Near the best fit a whole step changes the loss by less than its rounding. */
    private static final double ROUNDING = 1e-9;

    /** Small ridge towards {@link #NONE}, so that separable cases do not run away. */
    private static final double RIDGE = 1e-2;

    /** The calibrated probability. */
    public double apply(double p) {
        return Softmax.logistic(slope * ContextFeatures.logit(p) + offset);
    }

    /** Newton's method on the penalised log-likelihood; a step that would make it worse is halved, since a whole one overshoots where probabilities are told much too surely or much too low. */
    static PlattScale fit(double[] p, boolean[] truth) {
        double[] z = Arrays.stream(p).map(ContextFeatures::logit).toArray();
        double a = 1;
        double b = 0;
        double loss = loss(a, b, z, truth);
        for (int step = 0; step < STEPS; step++) {
            double ga = RIDGE * (a - 1);
            double gb = RIDGE * b;
            double haa = RIDGE;
            double hab = 0;
            double hbb = RIDGE;
            for (int i = 0; i < z.length; i++) {
                double q = Softmax.logistic(a * z[i] + b);
                double error = q - (truth[i] ? 1 : 0);
                double h = q * (1 - q);
                ga += error * z[i];
                gb += error;
                haa += h * z[i] * z[i];
                hab += h * z[i];
                hbb += h;
            }
            double det = haa * hbb - hab * hab;
            double da = (hbb * ga - hab * gb) / det;
            double db = (haa * gb - hab * ga) / det;
            double next = loss(a - da, b - db, z, truth);
            for (int half = 0; half < HALVINGS && !(next <= loss + ROUNDING * (1 + loss)); half++) {
                da /= 2;
                db /= 2;
                next = loss(a - da, b - db, z, truth);
            }
            a -= da;
            b -= db;
            loss = next;
            if (Math.abs(da) + Math.abs(db) < 1e-10) {
                break;
            }
        }
        return new PlattScale(a, b);
    }

    /** What {@link #fit} makes least: minus the log-likelihood, and the ridge. */
    private static double loss(double a, double b, double[] z, boolean[] truth) {
        double loss = RIDGE / 2 * ((a - 1) * (a - 1) + b * b);
        for (int i = 0; i < z.length; i++) {
            double score = a * z[i] + b;
            double against = truth[i] ? -score : score;
            loss += Math.max(0, against) + Math.log1p(Math.exp(-Math.abs(against)));
        }
        return loss;
    }
}
