package lungwort.classify;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Chooses {@link Limits} from risk-coverage curves over recordings whose patients the model had not seen: as many answers as the stated risks allow.
 *
 * <ul>
 *   <li>poor from: the lowest value at which at most {@value #MAX_GOOD_REFUSED} of the recordings that listeners could judge are refused;
 *   <li>unsure from: the highest value at which at most {@value #MAX_MISSED} of the answers "none heard" are to recordings in which listeners heard an extra sound;
 *   <li>heard from: the lowest value at which at most {@value #MAX_FALSE} of the suggestions are for recordings in which listeners heard none.
 * </ul>
 *
 * <p>Each is then held inside bounds that keep the band sensible, whatever the training set holds. The risks are those at the training set's share of extra sounds; where they are
 * rarer, fewer suggestions are right.
 */
final class LimitSearch {
    static final double MAX_GOOD_REFUSED = 0.05;
    static final double MAX_MISSED = 0.10;
    static final double MAX_FALSE = 0.20;

    private static final double[] POOR_BOUNDS = {0.3, 0.7};
    private static final double[] UNSURE_BOUNDS = {0.2, 0.5};
    private static final double[] HEARD_BOUNDS = {0.4, 0.7};

    private LimitSearch() {}

    /**
     * @param answers calibrated probabilities of recordings
     * @param labels what listeners called them, same length
     */
    static Limits choose(SoundModel.Calibrated[] answers, RecordingClass[] labels) {
        double poorFrom = poorFrom(answers, labels);
        boolean[] refused = new boolean[answers.length];
        for (int i = 0; i < refused.length; i++) {
            refused[i] = answers[i].poorQuality() >= poorFrom;
        }
        return choose(answers, labels, refused);
    }

    /**
     * As {@link #choose(SoundModel.Calibrated[], RecordingClass[])}, where it is told already which recordings are refused.
     *
     * @param refused as too poor to judge, same length
     */
    static Limits choose(SoundModel.Calibrated[] answers, RecordingClass[] labels, boolean[] refused) {
        double poorFrom = poorFrom(answers, labels);
        int[] judged = IntStream.range(0, answers.length)
                .filter(i -> labels[i] != RecordingClass.POOR_QUALITY && !refused[i])
                .toArray();
        double[] likelier = Arrays.stream(judged)
                .mapToDouble(i -> Math.max(answers[i].continuous(), answers[i].discontinuous()))
                .toArray();
        boolean[] heardBySome = new boolean[judged.length];
        for (int k = 0; k < judged.length; k++) {
            heardBySome[k] = labels[judged[k]] != RecordingClass.NORMAL;
        }
        double heardFrom = heardFrom(likelier, heardBySome);
        return new Limits(heardFrom, Math.min(heardFrom, unsureFrom(likelier, heardBySome)), poorFrom);
    }

    private static double poorFrom(SoundModel.Calibrated[] answers, RecordingClass[] labels) {
        double[] good = IntStream.range(0, answers.length)
                .filter(i -> labels[i] != RecordingClass.POOR_QUALITY)
                .mapToDouble(i -> answers[i].poorQuality())
                .sorted()
                .toArray();
        if (good.length == 0) {
            return Limits.USUAL.poorFrom();
        }
        int refused = (int) (MAX_GOOD_REFUSED * good.length);
        // Just above the highest probability that must not be refused.
        return within(Math.nextUp(good[good.length - 1 - refused]), POOR_BOUNDS);
    }

    private static double heardFrom(double[] likelier, boolean[] heardBySome) {
        double chosen = RiskCoverage.of(likelier, heardBySome)
                .safest(MAX_FALSE)
                .map(RiskCoverage.Point::threshold)
                .orElse(HEARD_BOUNDS[1]);
        return within(chosen, HEARD_BOUNDS);
    }

    private static double unsureFrom(double[] likelier, boolean[] heardBySome) {
        boolean[] right = new boolean[heardBySome.length];
        for (int k = 0; k < right.length; k++) {
            right[k] = !heardBySome[k];
        }
        double[] confidence = Arrays.stream(likelier).map(p -> 1 - p).toArray();
        double chosen = RiskCoverage.of(confidence, right)
                .safest(MAX_MISSED)
                .map(point -> Math.nextUp(1 - point.threshold()))
                .orElse(UNSURE_BOUNDS[0]);
        return within(chosen, UNSURE_BOUNDS);
    }

    private static double within(double value, double[] bounds) {
        return Math.max(bounds[0], Math.min(bounds[1], value));
    }
}
