package lungwort.score;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;

/**
 * Event-based F of events that were found without help, by one rule of what counts as found.
 *
 * @param rule the rule in words
 * @param counts of all events; classes must agree
 * @param f F with its interval by patient
 * @param precision with its interval
 * @param recall with its interval
 * @param byKind counts by class
 */
public record DetectionFigures(
        String rule,
        EventMatching.Counts counts,
        Figure f,
        Figure precision,
        Figure recall,
        SortedMap<String, EventMatching.Counts> byKind) {
    /** Its name among published figures. */
    static final String TASK = "event-F";

    /** Key of {@link EventMatching#USUAL_COLLAR} in reports. */
    public static final String COLLAR = "collar";

    /** Key of {@link EventMatching#HALF_OVERLAP} in reports. */
    public static final String OVERLAP = "overlap";

    private static final EventMatching.Counts NONE = new EventMatching.Counts(0, 0, 0);

    public DetectionFigures {
        byKind = Collections.unmodifiableSortedMap(new TreeMap<>(byKind));
    }

    /**
     * By onset and offset collar, and by overlap.
     *
     * @param annotated the truth
     * @param found what was found in the same recordings
     * @param patientOfRecording the patient of every recording that was searched, also of those without any event
     * @param resamples number of patient resamples
     * @param seed of the resampling
     */
    public static SortedMap<String, DetectionFigures> byBothRules(
            List<EventSpan> annotated,
            List<EventSpan> found,
            Map<String, String> patientOfRecording,
            int resamples,
            long seed) {
        SortedMap<String, DetectionFigures> figures = new TreeMap<>();
        figures.put(
                COLLAR,
                of(
                        "onset within 0.2 s; offset within 0.2 s or half the event's length, whichever is more",
                        EventMatching.USUAL_COLLAR,
                        annotated,
                        found,
                        patientOfRecording,
                        new Resampling(resamples, seed)));
        figures.put(
                OVERLAP,
                of(
                        "shared time at least half of the time that either covers",
                        EventMatching.HALF_OVERLAP,
                        annotated,
                        found,
                        patientOfRecording,
                        new Resampling(resamples, seed)));
        return figures;
    }

    private record Resampling(int resamples, long seed) {}

    private static DetectionFigures of(
            String words,
            EventMatching.Rule rule,
            List<EventSpan> annotated,
            List<EventSpan> found,
            Map<String, String> patientOfRecording,
            Resampling resampling) {
        Map<String, EventMatching.Counts> byRecording = EventMatching.byRecording(annotated, found, rule);
        TreeMap<String, String> recordings = new TreeMap<>(patientOfRecording);
        if (!recordings.keySet().containsAll(byRecording.keySet())) {
            throw new IllegalArgumentException("an event is of a recording that was not searched");
        }
        List<EventMatching.Counts> counts = recordings.keySet().stream()
                .map(recording -> byRecording.getOrDefault(recording, NONE))
                .toList();
        PatientBootstrap bootstrap =
                new PatientBootstrap(List.copyOf(recordings.values()), resampling.resamples(), resampling.seed());
        return new DetectionFigures(
                words,
                sum(counts),
                figure(counts, bootstrap, EventMatching.Counts::f),
                figure(counts, bootstrap, EventMatching.Counts::precision),
                figure(counts, bootstrap, EventMatching.Counts::recall),
                EventMatching.byKind(annotated, found, rule));
    }

    private static Figure figure(
            List<EventMatching.Counts> counts,
            PatientBootstrap bootstrap,
            ToDoubleFunction<EventMatching.Counts> measure) {
        Interval ci95 = bootstrap.interval(drawn -> {
            EventMatching.Counts sum = NONE;
            for (int i : drawn) {
                sum = sum.plus(counts.get(i));
            }
            return measure.applyAsDouble(sum);
        });
        return new Figure(measure.applyAsDouble(sum(counts)), ci95);
    }

    private static EventMatching.Counts sum(List<EventMatching.Counts> counts) {
        return counts.stream().reduce(NONE, EventMatching.Counts::plus);
    }
}
