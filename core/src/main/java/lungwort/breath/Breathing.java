package lungwort.breath;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The breaths found in a recording.
 *
 * @param breaths in order of time, without overlap; the first and the last may be parts of breaths, cut by the ends of the recording ({@link #whole})
 * @param rate breaths a minute, or null where none could be measured
 */
public record Breathing(List<Breath> breaths, @Nullable Rate rate) {
    /** No breath found and no rate measured. */
    public static final Breathing NONE = new Breathing(List.of(), null);

    public Breathing {
        breaths = List.copyOf(breaths);
    }

    /**
     * Respiratory rate with an interval.
     *
     * @param perMinute breaths a minute
     * @param low lower end of the interval
     * @param high upper end of the interval
     * @param confidence in [0, 1]
     */
    public record Rate(double perMinute, double low, double high, double confidence) {}

    /** The breaths that both begin and end within the recording: without the first if it starts at 0, without the last, which the end of the recording cuts. */
    public List<Breath> whole() {
        int from = !breaths.isEmpty() && breaths.get(0).startSeconds() == 0 ? 1 : 0;
        return breaths.subList(from, Math.max(from, breaths.size() - 1));
    }

    /** The phase span that holds a time in seconds; null where no breath holds it. */
    public @Nullable PhaseSpan phaseAt(double seconds) {
        for (Breath breath : breaths) {
            for (PhaseSpan span : breath.phases()) {
                if (seconds >= span.startSeconds() && seconds < span.endSeconds()) {
                    return span;
                }
            }
        }
        return null;
    }
}
