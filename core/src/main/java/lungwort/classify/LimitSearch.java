package lungwort.classify;

import java.util.Arrays;

/**
 * Chooses {@link Limits} from risk-coverage curves over recordings whose patients the model had not seen: as many answers as the stated risks allow.
 *
 * <ul>
 *   <li>poor from: the lowest value at which at most {@value #MAX_GOOD_REFUSED} of the recordings that listeners could judge are refused;
 *   <li>unsure from: the highest value at which at most {@value #MAX_MISSED} of the answers "none heard" leave out a sound that listeners heard;
 *   <li>heard from: the lowest value at which at most {@value #MAX_FALSE} of the suggested sounds are ones that listeners did not hear.
 * </ul>
 *
 * <p>Each is then held inside bounds that keep the band sensible, whatever the training set holds. The risks are those of the training set's share of extra sounds; where they are
 * rarer, fewer suggestions are right.
 */
final class LimitSearch {
    static final double MAX_GOOD_REFUSED = 0.05;
    static final double MAX_MISSED = 0.10;
    static final double MAX_FALSE = 0.25;

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
        int[] judged = java.util.stream.IntStream.range(0, answers.length)
                .filter(i -> labels[i] != RecordingClass.POOR_QUALITY && answers[i].poorQuality() < poorFrom)
                .toArray();
        double heardFrom = heardFrom(answers, labels, judged);
        return new Limits(heardFrom, Math.min(heardFrom, unsureFrom(answers, labels, judged)), poorFrom);
    }

    private static double poorFrom(SoundModel.Calibrated[] answers, RecordingClass[] labels) {
        double[] good = java.util.stream.IntStream.range(0, answers.length)
                .filter(i -> labels[i] != RecordingClass.POOR_QUALITY)
                .mapToDouble(i -> answers[i].poorQuality())
                .sorted()
                .toArray();
        int refused = (int) (MAX_GOOD_REFUSED * good.length);
        // Just above the highest probability that must not be refused.
        return good.length == 0
                ? Limits.USUAL.poorFrom()
                : within(Math.nextUp(good[good.length - 1 - refused]), POOR_BOUNDS);
    }

    /** Every pair of a recording and a kind of sound is a possible suggestion: right if listeners heard that kind. */
    private static double heardFrom(SoundModel.Calibrated[] answers, RecordingClass[] labels, int[] judged) {
        double[] confidence = new double[2 * judged.length];
        boolean[] right = new boolean[confidence.length];
        for (int k = 0; k < judged.length; k++) {
            int i = judged[k];
            confidence[2 * k] = answers[i].continuous();
            right[2 * k] = labels[i].continuous();
            confidence[2 * k + 1] = answers[i].discontinuous();
            right[2 * k + 1] = labels[i].discontinuous();
        }
        double chosen = RiskCoverage.of(confidence, right)
                .safest(MAX_FALSE)
                .map(RiskCoverage.Point::threshold)
                .orElse(HEARD_BOUNDS[1]);
        return within(chosen, HEARD_BOUNDS);
    }

    private static double unsureFrom(SoundModel.Calibrated[] answers, RecordingClass[] labels, int[] judged) {
        double[] confidence = Arrays.stream(judged)
                .mapToDouble(i -> 1 - Math.max(answers[i].continuous(), answers[i].discontinuous()))
                .toArray();
        boolean[] right = new boolean[judged.length];
        for (int k = 0; k < judged.length; k++) {
            right[k] = labels[judged[k]] == RecordingClass.NORMAL;
        }
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
