package lungwort.classify;

import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * The single extra sounds found in a recording.
 *
 * @param sure those that are probable enough whatever the recording is said to hold, in order of time
 * @param likely less probable ones, nearly as probable as the most probable of their kind there, in order of time: to be told only where a sound of their kind is suggested
 */
public record HeardEvents(List<HeardEvent> sure, List<HeardEvent> likely) {
    private static final Comparator<HeardEvent> BY_TIME =
            Comparator.comparingDouble(HeardEvent::startSeconds).thenComparing(e -> !e.continuous());

    /** None found. */
    public static final HeardEvents NONE = new HeardEvents(List.of(), List.of());

    public HeardEvents {
        sure = sure.stream().sorted(BY_TIME).toList();
        likely = likely.stream().sorted(BY_TIME).toList();
    }

    /**
     * All that are to be told, in order of time; a continuous sound before a discontinuous one that starts with it.
     *
     * @param continuous true if continuous sounds are suggested
     * @param discontinuous true if discontinuous sounds are
     */
    public List<HeardEvent> where(boolean continuous, boolean discontinuous) {
        return Stream.concat(sure.stream(), likely.stream().filter(e -> e.continuous() ? continuous : discontinuous))
                .sorted(BY_TIME)
                .toList();
    }
}
