package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** F-measure: van Rijsbergen, Information Retrieval, 1979 (from memory), as twice the matched over found and marked together. */
class EventLimitSearchTest {
    private static MarkedSound tone(double start, double end) {
        return new MarkedSound(start, end, true, false);
    }

    private static HeardEvent found(double start, double end, double p) {
        return new HeardEvent(start, end, true, p);
    }

    /** F: 2/6 at 0.9, 4/7 at 0.8, 4/8 at 0.7, 6/9 at 0.6, 6/10 at 0.5. */
    @Test
    void theLimitIsWhereFIsHighest() {
        EventLimitSearch limit = new EventLimitSearch(true);
        limit.add(
                List.of(found(0, 1, 0.9), found(10, 11, 0.7), found(2, 3, 0.6)),
                List.of(tone(0, 1), tone(2, 3), tone(4, 5)),
                false);
        limit.add(List.of(found(0, 1, 0.8), found(10, 11, 0.5)), List.of(tone(0, 1), tone(2, 3)), false);
        assertThat(limit.best()).isEqualTo(EventLimit.from(0.6));
    }

    /** Against every cut tried by itself, on recordings in which many sounds are as probable; where two cuts are as good, the higher one. */
    @Test
    void noCutIsBetter() {
        SplittableRandom random = new SplittableRandom(11);
        TreeSet<Double> chosen = new TreeSet<>();
        for (int round = 0; round < 200; round++) {
            EventLimitSearch limit = new EventLimitSearch(true);
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
                limit.add(events, sounds, false);
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
            assertThat(limit.best()).as("round %d", round).isEqualTo(EventLimit.from(cut));
            chosen.add(cut);
        }
        assertThat(chosen).as("the rounds differ").hasSizeGreaterThan(10);
    }

    /** All that are as probable are told or none. F is 2/3 at 0.9 and at 0.5; the right one of those at 0.5 by itself would make it 1. */
    @Test
    void whatIsAsProbableIsToldTogether() {
        EventLimitSearch limit = new EventLimitSearch(true);
        limit.add(
                List.of(found(0, 1, 0.9), found(2, 3, 0.5), found(10, 11, 0.5), found(12, 13, 0.5)),
                List.of(tone(0, 1), tone(2, 3)),
                false);
        assertThat(limit.best()).isEqualTo(EventLimit.from(0.9));
    }

    /** Each half shares half of what either covers with the sound; the second finds nothing that is not found. F is 1 at 0.9 and 2/3 at 0.8. */
    @Test
    void aMarkedSoundIsFoundOnce() {
        EventLimitSearch limit = new EventLimitSearch(true);
        limit.add(List.of(found(0, 1, 0.9), found(1, 2, 0.8)), List.of(tone(0, 2)), false);
        assertThat(limit.best()).isEqualTo(EventLimit.from(0.9));
    }

    /** Of three marked sounds one is of the other kind: what lies on it is wrong, and it is not missed. One that is both counts. */
    @Test
    void soundsOfTheOtherKindDoNotCount() {
        List<MarkedSound> marked =
                List.of(tone(0, 1), new MarkedSound(2, 3, false, true), new MarkedSound(4, 5, true, true));
        EventLimitSearch limit = new EventLimitSearch(true);
        limit.add(List.of(found(0, 1, 0.9), found(2, 3, 0.8), found(4, 5, 0.7)), marked, false);
        // 2/3, 2/4, 4/5
        assertThat(limit.best()).isEqualTo(EventLimit.from(0.7));
        EventLimitSearch without = new EventLimitSearch(true);
        without.add(List.of(found(0, 1, 0.9), found(2, 3, 0.8)), marked, false);
        assertThat(without.best()).isEqualTo(EventLimit.from(0.9));
        EventLimitSearch crackles = new EventLimitSearch(false);
        crackles.add(List.of(new HeardEvent(0, 1, false, 0.9), new HeardEvent(2, 3, false, 0.8)), marked, false);
        // 0/3, 2/4
        assertThat(crackles.best()).isEqualTo(EventLimit.from(0.8));
    }

    @Test
    void whereNothingIsRightTheLimitIsOne() {
        assertThat(new EventLimitSearch(true).best()).isEqualTo(EventLimit.from(1));
        EventLimitSearch limit = new EventLimitSearch(true);
        limit.add(List.of(found(0, 1, 0.9), found(2.51, 3.51, 0.8)), List.of(tone(3, 4)), false);
        assertThat(limit.best()).isEqualTo(EventLimit.from(1));
    }

    /**
     * F by the probability alone: 2/5 at 0.6, 4/6 at 0.2, 4/7 at 0.16, 6/9 at 0.1. Told half as probable as its most probable one where a tone is said to be, the third is told too: 6/8, down to three tenths. From a fifth on
     * the last one would be: 6/9.
     */
    @Test
    void whereASoundIsSaidToBeThoseNearlyAsProbableAreToldTooIfThatIsBetter() {
        for (boolean there : new boolean[] {true, false}) {
            EventLimitSearch limit = new EventLimitSearch(true);
            limit.add(List.of(found(0, 1, 0.6), found(10, 11, 0.15)), List.of(tone(0, 1)), false);
            limit.add(
                    List.of(found(0, 1, 0.2), found(2, 3, 0.16), found(4, 5, 0.1), found(6, 7, 0.05)),
                    List.of(tone(0, 1), tone(4, 5), tone(8, 9)),
                    there);
            assertThat(limit.best()).isEqualTo(there ? new EventLimit(0.2, 0.3) : EventLimit.from(0.2));
        }
    }

    /** Every tenth tried by itself, where most recordings are said to hold a tone; of shares that are better than none and within a hundredth of the best the lowest. */
    @Test
    void theLowestOfTheNearlyBestSharesIsTaken() {
        SplittableRandom random = new SplittableRandom(12);
        TreeSet<Double> chosen = new TreeSet<>();
        for (int round = 0; round < 200; round++) {
            EventLimitSearch limit = new EventLimitSearch(true);
            List<double[]> all = new ArrayList<>();
            int marked = 0;
            for (int recording = 0; recording < 5; recording++) {
                List<MarkedSound> sounds = new ArrayList<>();
                List<HeardEvent> events = new ArrayList<>();
                boolean there = random.nextInt(4) > 0;
                double loud = random.nextDouble(0.2, 1);
                for (int place = 0; place < 8; place++) {
                    double p = loud * random.nextDouble();
                    boolean isMarked = random.nextDouble() < p / loud;
                    if (isMarked) {
                        sounds.add(tone(place, place + 0.8));
                        marked++;
                    }
                    events.add(found(place, place + 0.8, p));
                }
                events.sort(Comparator.comparingDouble(HeardEvent::probability).reversed());
                for (HeardEvent e : events) {
                    boolean right = sounds.stream().anyMatch(m -> m.startSeconds() == e.startSeconds());
                    double share = there ? e.probability() / events.get(0).probability() : 0;
                    all.add(new double[] {e.probability(), share, right ? 1 : 0});
                }
                limit.add(events, sounds, there);
            }
            EventLimit best = limit.best();
            double alone = f(all, marked, best.from(), Double.POSITIVE_INFINITY);
            double[] tenths = {1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1};
            double highest = alone;
            for (double tried : tenths) {
                highest = Math.max(highest, f(all, marked, best.from(), tried));
            }
            double share = Double.POSITIVE_INFINITY;
            for (double tried : tenths) {
                double f = f(all, marked, best.from(), tried);
                share = f > alone && f >= highest - 0.01 ? tried : share;
            }
            assertThat(best.ofMostProbable()).as("round %d", round).isEqualTo(share);
            chosen.add(share);
        }
        assertThat(chosen)
                .as("the rounds differ")
                .contains(Double.POSITIVE_INFINITY)
                .hasSizeGreaterThan(5);
    }

    private static double f(List<double[]> all, int marked, double from, double ofMostProbable) {
        long told =
                all.stream().filter(e -> e[0] >= from || e[1] >= ofMostProbable).count();
        long right = all.stream()
                .filter(e -> (e[0] >= from || e[1] >= ofMostProbable) && e[2] == 1)
                .count();
        return 2.0 * right / (told + marked);
    }
}
