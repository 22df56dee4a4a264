package lungwort.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * Event-based F-measure: how many annotated events were found again with their class, onset and offset (Mesaros, Heittola and Virtanen, Applied Sciences 2016, 6:162).
 *
 * <p>Within a recording and a class, each annotated event may be matched with at most one found event; the largest possible matching is taken (maximum bipartite matching,
 * as in Raffel et al., ISMIR 2014: seen in the documentation of their code, which computes a maximum matching [P]), so the order of events does not matter.
 */
public final class EventMatching {
    private EventMatching() {}

    /** When an annotated event and a found one may count as the same. */
    @FunctionalInterface
    public interface Rule {
        /** True if {@code found} is close enough to {@code annotated}. */
        boolean matches(EventSpan annotated, EventSpan found);

        /**
         * Onset and offset collars: onsets at most {@code onsetSeconds} apart, offsets at most {@code max(offsetSeconds, offsetShare * annotated duration)}.
         */
        static Rule collar(double onsetSeconds, double offsetSeconds, double offsetShare) {
            return (annotated, found) -> {
                double offsetCollar = Math.max(offsetSeconds, offsetShare * annotated.durationSeconds());
                return Math.abs(annotated.startSeconds() - found.startSeconds()) <= onsetSeconds + ROUNDING_SECONDS
                        && Math.abs(annotated.endSeconds() - found.endSeconds()) <= offsetCollar + ROUNDING_SECONDS;
            };
        }

        /** Overlap: the time both share is at least {@code minShare} of the time either covers (intersection over union). */
        static Rule overlap(double minShare) {
            return (annotated, found) -> {
                double shared = Math.min(annotated.endSeconds(), found.endSeconds())
                        - Math.max(annotated.startSeconds(), found.startSeconds());
                double covered = annotated.durationSeconds() + found.durationSeconds() - shared;
                return shared > 0 && shared >= minShare * covered - ROUNDING_SECONDS;
            };
        }
    }

    /** A microsecond, so that a difference of exactly the collar is inside it in floating point. */
    private static final double ROUNDING_SECONDS = 1e-6;

    /** Onset within 200 ms, offset within 200 ms or half the event's duration, whichever is more: the default of the published evaluation code of Mesaros et al., Appl Sci 2016 [P]. */
    public static final Rule USUAL_COLLAR = Rule.collar(0.2, 0.2, 0.5);

    /** Half of the covered time shared [C]. */
    public static final Rule HALF_OVERLAP = Rule.overlap(0.5);

    /**
     * Counts matches by class.
     *
     * @param annotated the truth, any order, any number of recordings
     * @param found what was found in the same recordings
     */
    public static SortedMap<String, Counts> byKind(List<EventSpan> annotated, List<EventSpan> found, Rule rule) {
        return count(annotated, found, rule, Key::kind);
    }

    /** The same by recording, all classes together; recordings without any event are absent. */
    public static SortedMap<String, Counts> byRecording(List<EventSpan> annotated, List<EventSpan> found, Rule rule) {
        return count(annotated, found, rule, Key::recording);
    }

    private static SortedMap<String, Counts> count(
            List<EventSpan> annotated, List<EventSpan> found, Rule rule, Function<Key, String> group) {
        Map<Key, List<EventSpan>> annotatedBy = group(annotated);
        Map<Key, List<EventSpan>> foundBy = group(found);
        SortedMap<String, Counts> counts = new TreeMap<>();
        annotatedBy.forEach((key, events) -> counts.merge(
                group.apply(key),
                new Counts(events.size(), 0, maximumMatching(events, foundBy.getOrDefault(key, List.of()), rule)),
                Counts::plus));
        foundBy.forEach((key, events) -> counts.merge(group.apply(key), new Counts(0, events.size(), 0), Counts::plus));
        return counts;
    }

    /** All classes together (micro average): a match still needs the class. */
    public static Counts total(List<EventSpan> annotated, List<EventSpan> found, Rule rule) {
        return byKind(annotated, found, rule).values().stream().reduce(new Counts(0, 0, 0), Counts::plus);
    }

    private static Map<Key, List<EventSpan>> group(List<EventSpan> events) {
        Map<Key, List<EventSpan>> groups = new HashMap<>();
        for (EventSpan event : events) {
            groups.computeIfAbsent(new Key(event.recording(), event.kind()), k -> new ArrayList<>())
                    .add(event);
        }
        return groups;
    }

    /** Augmenting paths (Kuhn's algorithm): small groups, so its cubic worst case does not matter. */
    private static int maximumMatching(List<EventSpan> annotated, List<EventSpan> found, Rule rule) {
        int[] partnerOfFound = new int[found.size()];
        Arrays.fill(partnerOfFound, -1);
        int matched = 0;
        for (int a = 0; a < annotated.size(); a++) {
            if (augment(a, annotated, found, rule, partnerOfFound, new boolean[found.size()])) {
                matched++;
            }
        }
        return matched;
    }

    private static boolean augment(
            int a, List<EventSpan> annotated, List<EventSpan> found, Rule rule, int[] partnerOfFound, boolean[] seen) {
        for (int f = 0; f < found.size(); f++) {
            if (seen[f] || !rule.matches(annotated.get(a), found.get(f))) {
                continue;
            }
            seen[f] = true;
            if (partnerOfFound[f] < 0 || augment(partnerOfFound[f], annotated, found, rule, partnerOfFound, seen)) {
                partnerOfFound[f] = a;
                return true;
            }
        }
        return false;
    }

    private record Key(String recording, String kind) {}

    /**
     * How many there were and how many met.
     *
     * @param annotated events in the truth
     * @param found events found
     * @param matched pairs
     */
    public record Counts(int annotated, int found, int matched) {
        /** Sums, as recordings or classes are added up. */
        public Counts plus(Counts other) {
            return new Counts(annotated + other.annotated, found + other.found, matched + other.matched);
        }

        /** Share of the found that are right; 0 if none was found but some were there, NaN if there was nothing at all. */
        public double precision() {
            return share(matched, found);
        }

        /** Share of the annotated that were found; 0 if something was found where nothing was, NaN if there was nothing at all. */
        public double recall() {
            return share(matched, annotated);
        }

        /** Harmonic mean of precision and recall, 2 matched / (annotated + found); NaN if there was nothing at all. */
        public double f() {
            return annotated + found == 0 ? Double.NaN : 2.0 * matched / (annotated + found);
        }

        private double share(int part, int whole) {
            if (annotated + found == 0) {
                return Double.NaN;
            }
            return whole == 0 ? 0 : (double) part / whole;
        }
    }
}
