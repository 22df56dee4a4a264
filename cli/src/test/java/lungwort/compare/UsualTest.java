package lungwort.compare;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class UsualTest {
    private static TakeMeasures rate(double value) {
        return Takes.take("take", Map.of(Measure.RATE, value));
    }

    private static Usual usual(double today, double... earlier) {
        List<TakeMeasures> takes =
                java.util.Arrays.stream(earlier).mapToObj(UsualTest::rate).toList();
        return Usual.of(rate(today), takes, true, Takes.repeatability(4)).get(0);
    }

    @Test
    void todayIsBesideMedianAndRangeOfTheEarlierTakes() {
        Usual u = usual(30, 24, 20, 22);
        assertThat(u.median()).isEqualTo(22);
        assertThat(u.lowest()).isEqualTo(20);
        assertThat(u.highest()).isEqualTo(24);
        assertThat(u.takes()).isEqualTo(3);
    }

    @Test
    void unusualIsOutsideAllEarlierTakesAndFurtherThanTheRepeatability() {
        assertThat(usual(26, 20, 22, 24).unusual()).as("4 from the median").isFalse();
        assertThat(usual(26.1, 20, 22, 24).unusual()).isTrue();
        assertThat(usual(17.9, 20, 22, 24).unusual()).isTrue();
        assertThat(usual(30, 10, 22, 34).unusual()).as("within the range").isFalse();
    }

    @Test
    void twoEarlierTakesAreNoUsual() {
        assertThat(usual(60, 20, 22).unusual()).isFalse();
    }

    @Test
    void whatCannotBeComparedIsNotCompared() {
        List<TakeMeasures> earlier =
                List.of(Takes.take("a", Takes.all(1)), Takes.take("b", Takes.all(1)), Takes.take("c", Takes.all(1)));
        List<Usual> other = Usual.of(Takes.take("today", Takes.all(9)), earlier, false, Takes.repeatability(1));
        assertThat(other).extracting(Usual::measure).contains(Measure.RATE).doesNotContain(Measure.LEVEL_100_200);
        assertThat(Usual.of(rate(1), List.of(), true, Takes.repeatability(1))).isEmpty();
    }
}
