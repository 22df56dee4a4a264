package lungwort.classify;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;

/**
 * What is said of one recording that sounds unlike those learnt from ({@link FamiliarSpectrum}). The model of whole recordings knows them by much that another device changes; a window's model by less, and the one
 * of bursts by least. So what is said of the windows, on the mean, has half of the say (log odds): where the device is known it costs little, where it is not it ranks recordings better (models/CARD.md).
 *
 * @param continuous makes such a probability of a continuous extra sound honest
 * @param discontinuous the same for a discontinuous one
 */
record UnfamiliarScale(PlattScale continuous, PlattScale discontinuous) {
    /** Half: how much of the say would serve a device best is not known where nothing was learnt from it. */
    private static final double WINDOWS_SHARE = 0.5;

    /**
     * Calibrated probabilities.
     *
     * @param whole class probabilities of the recording by itself, in the order of {@link RecordingClass}
     * @param windows of the recording
     * @param poorQuality its calibrated probability of poor quality, in which the windows have no say
     */
    SoundModel.Calibrated apply(double[] whole, List<WindowAnswer> windows, double poorQuality) {
        return new SoundModel.Calibrated(
                continuous.apply(continuous(whole, windows)),
                discontinuous.apply(discontinuous(whole, windows)),
                poorQuality);
    }

    /** Probability of a continuous extra sound if the recording can be judged at all, before calibration. */
    static double continuous(double[] whole, List<WindowAnswer> windows) {
        return mixed(RecordingClass.continuous(whole), whole, windows.stream().mapToDouble(WindowAnswer::continuous));
    }

    /** The same of a discontinuous one. */
    static double discontinuous(double[] whole, List<WindowAnswer> windows) {
        return mixed(
                RecordingClass.discontinuous(whole), whole, windows.stream().mapToDouble(WindowAnswer::discontinuous));
    }

    private static double mixed(double probability, double[] whole, DoubleStream windows) {
        double own = WindowAnswer.logit(RecordingClass.ifJudged(probability, whole));
        double mean = windows.map(WindowAnswer::logit).average().orElse(own);
        return Softmax.logistic(WINDOWS_SHARE * mean + (1 - WINDOWS_SHARE) * own);
    }

    /** What is said of recordings whose patients no stage had seen, with what came true. */
    static final class Cases {
        private final List<Double> continuous = new ArrayList<>();
        private final List<Double> discontinuous = new ArrayList<>();
        private final List<RecordingClass> labels = new ArrayList<>();

        /** @param label not of poor quality */
        void add(double[] whole, List<WindowAnswer> windows, RecordingClass label) {
            continuous.add(UnfamiliarScale.continuous(whole, windows));
            discontinuous.add(UnfamiliarScale.discontinuous(whole, windows));
            labels.add(label);
        }

        private boolean ofBothKinds() {
            return ofBothKinds(RecordingClass::continuous) && ofBothKinds(RecordingClass::discontinuous);
        }

        private boolean ofBothKinds(Predicate<RecordingClass> heard) {
            return labels.stream().anyMatch(heard) && !labels.stream().allMatch(heard);
        }

        private PlattScale scale(List<Double> probabilities, Predicate<RecordingClass> heard) {
            boolean[] truth = new boolean[labels.size()];
            for (int i = 0; i < truth.length; i++) {
                truth[i] = heard.test(labels.get(i));
            }
            return PlattScale.fit(
                    probabilities.stream().mapToDouble(Double::doubleValue).toArray(), truth);
        }
    }

    /**
     * @param altered recordings altered as other devices and rooms alter sound, which make them unfamiliar; if they are not of both kinds, {@code plain} stands in
     * @param plain recordings as they are
     */
    static UnfamiliarScale fit(Cases altered, Cases plain) {
        Cases cases = altered.ofBothKinds() ? altered : plain;
        return new UnfamiliarScale(
                cases.scale(cases.continuous, RecordingClass::continuous),
                cases.scale(cases.discontinuous, RecordingClass::discontinuous));
    }
}
