package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** By hand from the definition of event-based F (Mesaros et al., Applied Sciences 2016). */
class EventMatchingTest {
    private static EventSpan event(double start, double end, String kind) {
        return new EventSpan("r", start, end, kind);
    }

    @ParameterizedTest
    @CsvSource({
        // annotated 1.0 to 1.3: the offset collar is 200 ms, since half of 300 ms is less
        "1.0, 1.3, 1",
        "1.2, 1.5, 1",
        "0.8, 1.1, 1",
        "1.21, 1.3, 0",
        "1.0, 1.51, 0",
        "0.79, 1.3, 0",
    })
    void shortEventsMayBeOffByTwoHundredMilliseconds(double start, double end, int matched) {
        EventMatching.Counts counts = EventMatching.total(
                List.of(event(1.0, 1.3, "wheeze")), List.of(event(start, end, "wheeze")), EventMatching.USUAL_COLLAR);
        assertThat(counts.matched()).isEqualTo(matched);
    }

    @ParameterizedTest
    @CsvSource({"1.0, 4.0, 1", "1.0, 2.0, 1", "1.0, 1.99, 0", "1.0, 4.01, 0", "1.21, 3.0, 0"})
    void theOffsetOfALongEventMayBeOffByHalfItsLength(double start, double end, int matched) {
        EventMatching.Counts counts = EventMatching.total(
                List.of(event(1.0, 3.0, "wheeze")), List.of(event(start, end, "wheeze")), EventMatching.USUAL_COLLAR);
        assertThat(counts.matched()).isEqualTo(matched);
    }

    @ParameterizedTest
    @CsvSource({"0, 2, 1", "1, 2, 1", "0, 1, 1", "0, 4, 1", "0, 0.99, 0", "0, 4.01, 0", "1, 3, 0", "2, 4, 0"})
    void overlapIsIntersectionOverUnion(double start, double end, int matched) {
        EventMatching.Counts counts = EventMatching.total(
                List.of(event(0, 2, "wheeze")), List.of(event(start, end, "wheeze")), EventMatching.HALF_OVERLAP);
        assertThat(counts.matched()).isEqualTo(matched);
    }

    @Test
    void precisionRecallAndFByHand() {
        // 4 annotated, 3 found, 2 meet: P = 2/3, R = 1/2, F = 4/7
        List<EventSpan> annotated =
                List.of(event(0, 1, "wheeze"), event(2, 3, "wheeze"), event(4, 5, "crackle"), event(6, 7, "crackle"));
        List<EventSpan> found = List.of(event(0.1, 1.1, "wheeze"), event(2, 3, "crackle"), event(4.1, 5.2, "crackle"));
        EventMatching.Counts counts = EventMatching.total(annotated, found, EventMatching.USUAL_COLLAR);
        assertThat(counts).isEqualTo(new EventMatching.Counts(4, 3, 2));
        assertThat(counts.precision()).isEqualTo(2.0 / 3, within(1e-12));
        assertThat(counts.recall()).isEqualTo(0.5);
        assertThat(counts.f()).isEqualTo(4.0 / 7, within(1e-12));
        assertThat(EventMatching.byKind(annotated, found, EventMatching.USUAL_COLLAR))
                .containsEntry("wheeze", new EventMatching.Counts(2, 1, 1))
                .containsEntry("crackle", new EventMatching.Counts(2, 2, 1));
    }

    @Test
    void eventsOfOtherRecordingsNeverMeet() {
        assertThat(EventMatching.total(
                                List.of(new EventSpan("one", 0, 1, "wheeze")),
                                List.of(new EventSpan("two", 0, 1, "wheeze")),
                                EventMatching.USUAL_COLLAR)
                        .matched())
                .isZero();
    }

    /** First come, first served would give the first annotated event the only partner of the second. */
    @Test
    void theLargestMatchingIsTakenNotTheFirst() {
        List<EventSpan> annotated = List.of(event(1.0, 2.0, "wheeze"), event(0.7, 1.7, "wheeze"));
        List<EventSpan> found = List.of(event(0.9, 1.9, "wheeze"), event(1.2, 2.2, "wheeze"));
        assertThat(EventMatching.total(annotated, found, EventMatching.USUAL_COLLAR)
                        .matched())
                .isEqualTo(2);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void theMatchingIsAsLargeAsTryingEveryAssignmentFinds(long seed) {
        Random random = new Random(seed);
        List<EventSpan> annotated = random(random, 6);
        List<EventSpan> found = random(random, 6);
        int best = everyAssignment(annotated, new ArrayList<>(found), 0);
        assertThat(EventMatching.total(annotated, found, EventMatching.USUAL_COLLAR)
                        .matched())
                .isEqualTo(best);
        Collections.reverse(annotated);
        assertThat(EventMatching.total(annotated, found, EventMatching.USUAL_COLLAR)
                        .matched())
                .isEqualTo(best);
    }

    private static List<EventSpan> random(Random random, int count) {
        List<EventSpan> events = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double start = random.nextDouble();
            events.add(event(start, start + 0.1 + random.nextDouble() / 2, "wheeze"));
        }
        return events;
    }

    private static int everyAssignment(List<EventSpan> annotated, List<EventSpan> free, int next) {
        if (next == annotated.size()) {
            return 0;
        }
        int best = everyAssignment(annotated, free, next + 1);
        for (EventSpan candidate : List.copyOf(free)) {
            if (EventMatching.USUAL_COLLAR.matches(annotated.get(next), candidate)) {
                List<EventSpan> rest = new ArrayList<>(free);
                rest.remove(candidate);
                best = Math.max(best, 1 + everyAssignment(annotated, rest, next + 1));
            }
        }
        return best;
    }

    @Test
    void identicalEventsScoreExactlyOneAndNothingAtAllIsUndefined() {
        List<EventSpan> events = List.of(event(0, 1, "wheeze"), event(0.5, 2, "wheeze"), event(3, 3.01, "crackle"));
        assertThat(EventMatching.total(events, events, EventMatching.USUAL_COLLAR)
                        .f())
                .isEqualTo(1);
        EventMatching.Counts nothing = EventMatching.total(List.of(), List.of(), EventMatching.USUAL_COLLAR);
        assertThat(nothing.f()).isNaN();
        assertThat(nothing.precision()).isNaN();
        EventMatching.Counts missed = EventMatching.total(events, List.of(), EventMatching.USUAL_COLLAR);
        assertThat(missed.precision()).isZero();
        assertThat(missed.f()).isZero();
    }
}
