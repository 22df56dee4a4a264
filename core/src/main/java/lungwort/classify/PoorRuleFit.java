package lungwort.classify;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Fits {@link PoorRule}. The weights of the measures come from all rows, but the weights of both together and the limits come from answers to patients that the measures' weights had not seen, and from
 * learnt probabilities that had not seen them either.
 */
final class PoorRuleFit {
    /** Chosen among 25 to 1000 by patient folds of SPRSound's training set; from 30 to 100 the area under the curve moves by 0.005. */
    private static final double RIDGE = 50;

    private static final double TOGETHER_RIDGE = 1;

    /** At most so many of the recordings that listeners could judge are refused. */
    static final double MAX_GOOD_REFUSED = 0.05;

    /** A recording is refused only if its measures are among the worst so many of those that listeners could judge: found to cost nothing, and to hold the rule back under other devices. */
    static final double GOOD_DOUBTED = 0.08;

    private PoorRuleFit() {}

    /**
     * @param relative measures of each recording
     * @param learnt calibrated probability of poor quality of each, by a model that had not seen its patient
     * @param poor what listeners said
     * @param folds fold of each recording, by patient
     * @return null where recordings of one of both kinds are missing in a fold's training set
     */
    static @Nullable PoorRule fit(double[][] relative, double[] learnt, boolean[] poor, int[] folds) {
        if (poor.length == 0) {
            return null;
        }
        double[] measured = new double[poor.length];
        for (int fold : Arrays.stream(folds).distinct().sorted().toArray()) {
            int[] rest = IntStream.range(0, folds.length)
                    .filter(i -> folds[i] != fold)
                    .toArray();
            if (!both(poor, rest)) {
                return null;
            }
            RidgeLogistic fit = fit(relative, poor, rest);
            IntStream.range(0, folds.length)
                    .filter(i -> folds[i] == fold)
                    .forEach(i -> measured[i] = fit.logOdds(relative[i]));
        }
        double[][] columns = IntStream.range(0, poor.length)
                .mapToObj(i -> PoorRule.columns(measured[i], learnt[i]))
                .toArray(double[][]::new);
        RidgeLogistic together = RidgeLogistic.fit(columns, poor, TOGETHER_RIDGE);
        double[] both = Arrays.stream(columns).mapToDouble(together::logOdds).toArray();
        int[] every = IntStream.range(0, poor.length).toArray();
        double measuredFrom = highest(measured, poor, GOOD_DOUBTED);
        double[] doubted = IntStream.range(0, poor.length)
                .mapToDouble(i -> measured[i] >= measuredFrom ? both[i] : Double.NEGATIVE_INFINITY)
                .toArray();
        return new PoorRule(
                fit(relative, poor, every), together, measuredFrom, highest(doubted, poor, MAX_GOOD_REFUSED));
    }

    private static RidgeLogistic fit(double[][] relative, boolean[] poor, int[] chosen) {
        double[][] rows = Arrays.stream(chosen).mapToObj(i -> relative[i]).toArray(double[][]::new);
        boolean[] truth = new boolean[chosen.length];
        for (int k = 0; k < chosen.length; k++) {
            truth[k] = poor[chosen[k]];
        }
        return RidgeLogistic.fit(rows, truth, RIDGE);
    }

    private static boolean both(boolean[] poor, int[] chosen) {
        long n = Arrays.stream(chosen).filter(i -> poor[i]).count();
        return n > 0 && n < chosen.length;
    }

    /** The lowest limit that at most this share of the good recordings reach. */
    private static double highest(double[] score, boolean[] poor, double share) {
        double[] good = IntStream.range(0, score.length)
                .filter(i -> !poor[i])
                .mapToDouble(i -> score[i])
                .sorted()
                .toArray();
        return Math.nextUp(good[good.length - 1 - (int) (share * good.length)]);
    }
}
