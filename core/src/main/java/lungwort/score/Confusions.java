package lungwort.score;

import java.util.EnumSet;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import lungwort.dataset.CycleClass;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;

/** The confusion matrices of a report. */
final class Confusions {
    private Confusions() {}

    /** SPRSound's tasks of more than two classes. */
    static SortedMap<String, Confusion> challenge(List<EventPrediction> events, List<RecordingPrediction> recordings) {
        List<String> seven = ids(EnumSet.complementOf(EnumSet.of(EventLabel.CRACKLE)), EventLabel::id);
        SortedMap<String, Confusion> confusions = new TreeMap<>();
        confusions.put("1-2", of(seven, events, EventPrediction::truth, EventPrediction::called));
        confusions.put(
                "2-1",
                of(
                        ids(EnumSet.allOf(RecordingVerdict.class), RecordingVerdict::id),
                        recordings,
                        r -> RecordingVerdict.of(r.truth()),
                        RecordingPrediction::verdict));
        confusions.put(
                "2-2",
                of(
                        ids(EnumSet.allOf(RecordingLabel.class), RecordingLabel::id),
                        recordings,
                        RecordingPrediction::truth,
                        RecordingPrediction::called));
        return confusions;
    }

    /** ICBHI's four classes over cycles. */
    static Confusion icbhi(List<EventPrediction> cycles) {
        return of(
                ids(EnumSet.allOf(CycleClass.class), CycleClass::id),
                cycles,
                e -> CycleClass.of(e.truth()),
                e -> CycleClass.of(e.called()));
    }

    private static <E extends Enum<E>> List<String> ids(EnumSet<E> values, Function<E, String> id) {
        return values.stream().map(id).toList();
    }

    private static <T, E extends Enum<E>> Confusion of(
            List<String> classes, List<T> items, Function<T, E> truth, Function<T, E> called) {
        return Confusion.of(
                classes,
                items.stream().mapToInt(i -> truth.apply(i).ordinal()).toArray(),
                items.stream().mapToInt(i -> called.apply(i).ordinal()).toArray());
    }
}
