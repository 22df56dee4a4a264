package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** F-measure: van Rijsbergen, Information Retrieval, 1979 (from memory), as twice the matched over found and marked together. */
class EventLimitTest {
    private static MarkedSound tone(double start, double end) {
        return new MarkedSound(start, end, true, false);
    }

    private static HeardEvent found(double start, double end, double p) {
        return new HeardEvent(start, end, true, p);
    }

    /** F: 2/6 at 0.9, 4/7 at 0.8, 4/8 at 0.7, 6/9 at 0.6, 6/10 at 0.5. */
    @Test
    void theLimitIsWhereFIsHighest() {
        EventLimit limit = new EventLimit(true);
        limit.add(
                List.of(found(0, 1, 0.9), found(10, 11, 0.7), found(2, 3, 0.6)),
                List.of(tone(0, 1), tone(2, 3), tone(4, 5)));
        limit.add(List.of(found(0, 1, 0.8), found(10, 11, 0.5)), List.of(tone(0, 1), tone(2, 3)));
        assertThat(limit.best()).isEqualTo(0.6);
    }

    /** Against every cut tried by itself, on recordings in which many sounds are as probable; where two cuts are as good, the higher one. */
    @Test
    void noCutIsBetter() {
        SplittableRandom random = new SplittableRandom(11);
        TreeSet<Double> chosen = new TreeSet<>();
        for (int round = 0; round < 200; round++) {
            EventLimit limit = new EventLimit(true);
            List<Double> right = new ArrayList<>();
            List<Double> all = new ArrayList<>();
            int marked = 0;
            int steps = 2 + random.nextInt(9);
            for (int recording = 0; recording < 4; recording++) {
                List<MarkedSound> sounds = new ArrayList<>();
                List<HeardEvent> events = new ArrayList<>();
                for (int place = 0; place < 12; place++) {
                    boolean isMarked = random.nextInt(3) == 0;
                    boolean isFound = random.nextInt(2) == 0;
                    double p = random.nextInt(1, steps + 1) / (double) (steps + 1);
                    if (isMarked) {
                        sounds.add(tone(place, place + 0.8));
                        marked++;
                    }
                    if (isFound) {
                        events.add(found(place, place + 0.8, p));
                        all.add(p);
                    }
                    if (isMarked && isFound) {
                        right.add(p);
                    }
                }
                events.sort(Comparator.comparingDouble(HeardEvent::probability).reversed());
                limit.add(events, sounds);
            }
            double best = 0;
            double cut = 1;
            for (double p : new TreeSet<>(all).descendingSet()) {
                long foundFrom = all.stream().filter(q -> q >= p).count();
                long rightFrom = right.stream().filter(q -> q >= p).count();
                double f = 2.0 * rightFrom / (foundFrom + marked);
                if (f > best) {
                    best = f;
                    cut = p;
                }
            }
            assertThat(limit.best()).as("round %d", round).isEqualTo(cut);
            chosen.add(cut);
        }
        assertThat(chosen).as("the rounds differ").hasSizeGreaterThan(10);
    }

    /** All that are as probable are told or none. F is 2/3 at 0.9 and at 0.5; the right one of those at 0.5 by itself would make it 1. */
    @Test
    void whatIsAsProbableIsToldTogether() {
        EventLimit limit = new EventLimit(true);
        limit.add(
                List.of(found(0, 1, 0.9), found(2, 3, 0.5), found(10, 11, 0.5), found(12, 13, 0.5)),
                List.of(tone(0, 1), tone(2, 3)));
        assertThat(limit.best()).isEqualTo(0.9);
    }

    /** Each half shares half of what either covers with the sound; the second finds nothing that is not found. F is 1 at 0.9 and 2/3 at 0.8. */
    @Test
    void aMarkedSoundIsFoundOnce() {
        EventLimit limit = new EventLimit(true);
        limit.add(List.of(found(0, 1, 0.9), found(1, 2, 0.8)), List.of(tone(0, 2)));
        assertThat(limit.best()).isEqualTo(0.9);
    }

    /** Of three marked sounds one is of the other kind: what lies on it is wrong, and it is not missed. One that is both counts. */
    @Test
    void soundsOfTheOtherKindDoNotCount() {
        List<MarkedSound> marked =
                List.of(tone(0, 1), new MarkedSound(2, 3, false, true), new MarkedSound(4, 5, true, true));
        EventLimit limit = new EventLimit(true);
        limit.add(List.of(found(0, 1, 0.9), found(2, 3, 0.8), found(4, 5, 0.7)), marked);
        // 2/3, 2/4, 4/5
        assertThat(limit.best()).isEqualTo(0.7);
        EventLimit without = new EventLimit(true);
        without.add(List.of(found(0, 1, 0.9), found(2, 3, 0.8)), marked);
        assertThat(without.best()).isEqualTo(0.9);
        EventLimit crackles = new EventLimit(false);
        crackles.add(List.of(new HeardEvent(0, 1, false, 0.9), new HeardEvent(2, 3, false, 0.8)), marked);
        // 0/3, 2/4
        assertThat(crackles.best()).isEqualTo(0.8);
    }

    @Test
    void whereNothingIsRightTheLimitIsOne() {
        assertThat(new EventLimit(true).best()).isEqualTo(1);
        EventLimit limit = new EventLimit(true);
        limit.add(List.of(found(0, 1, 0.9), found(2.51, 3.51, 0.8)), List.of(tone(3, 4)));
        assertThat(limit.best()).isEqualTo(1);
    }
}
