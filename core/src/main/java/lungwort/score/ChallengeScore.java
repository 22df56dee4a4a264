package lungwort.score;

import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import lungwort.dataset.CycleClass;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;

/**
 * The scores of the two public challenges: SPRSound's four tasks (Zhang et al., IEEE TBioCAS 2022) and ICBHI 2017's four-class score over cycles (Rocha et al., Physiol Meas
 * 2019). Truth and prediction are lists of the same length, item by item.
 */
public final class ChallengeScore {
    private ChallengeScore() {}

    /** Task 1-1: events, normal or adventitious. */
    public static TaskScore task11(List<Boolean> trulyAdventitious, List<Boolean> calledAdventitious) {
        return score(trulyAdventitious, calledAdventitious, adventitious -> !adventitious, truth -> false);
    }

    /** Task 1-2: events, seven classes; an adventitious event counts only with its exact class. */
    public static TaskScore task12(List<EventLabel> truth, List<EventLabel> predicted) {
        return score(truth, predicted, label -> label == EventLabel.NORMAL, label -> false);
    }

    /** Task 2-1: recordings, three classes. True poor-quality recordings are left out; "poor quality" said of another is an error. */
    public static TaskScore task21(List<RecordingVerdict> truth, List<RecordingVerdict> predicted) {
        return score(
                truth,
                predicted,
                verdict -> verdict == RecordingVerdict.NORMAL,
                verdict -> verdict == RecordingVerdict.POOR_QUALITY);
    }

    /** Task 2-2: recordings, five classes, with poor quality as in {@link #task21}. */
    public static TaskScore task22(List<RecordingLabel> truth, List<RecordingLabel> predicted) {
        return score(
                truth,
                predicted,
                label -> label == RecordingLabel.NORMAL,
                label -> label == RecordingLabel.POOR_QUALITY);
    }

    /**
     * ICBHI 2017: Se = adventitious cycles given their exact class, Sp = normal cycles called normal. The challenge's Score is their arithmetic mean, so read
     * {@link TaskScore#averageScore()}, not {@link TaskScore#score()}.
     */
    public static TaskScore icbhi(List<CycleClass> truth, List<CycleClass> predicted) {
        return score(truth, predicted, c -> c == CycleClass.NORMAL, c -> false);
    }

    private static <T> TaskScore score(
            List<T> truth, List<T> predicted, Predicate<T> isNormal, Predicate<T> isLeftOut) {
        if (truth.size() != predicted.size()) {
            throw new IllegalArgumentException(truth.size() + " true but " + predicted.size() + " predicted");
        }
        long normal = 0;
        long normalRight = 0;
        long adventitious = 0;
        long adventitiousRight = 0;
        for (int i = 0; i < truth.size(); i++) {
            T t = truth.get(i);
            boolean right = Objects.equals(t, predicted.get(i));
            if (isLeftOut.test(t)) {
                continue;
            }
            if (isNormal.test(t)) {
                normal++;
                normalRight += right ? 1 : 0;
            } else {
                adventitious++;
                adventitiousRight += right ? 1 : 0;
            }
        }
        return new TaskScore(share(adventitiousRight, adventitious), share(normalRight, normal));
    }

    private static double share(long part, long whole) {
        return whole == 0 ? Double.NaN : (double) part / whole;
    }
}
