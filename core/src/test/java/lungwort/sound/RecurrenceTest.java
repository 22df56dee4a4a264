package lungwort.sound;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import lungwort.breath.Breath;
import lungwort.breath.Breathing;
import org.junit.jupiter.api.Test;

class RecurrenceTest {
    /** Of a weight of 2. */
    private static final double SCORE = 4 * Math.E * Math.E;

    /** Four breaths of 3 s, worked by hand: what is heard in all of them comes back in each of the three others, what is heard once in none. */
    @Test
    void whatIsHeardInEachBreathComesBackAndAKnockDoesNot() {
        Breathing four = breaths(0.5, 3, 3, 3, 3);
        List<Burst> bursts = bursts(1, 4, 5.9, 7, 10);
        List<Recurrence.Return> returns = Recurrence.of(bursts, four, 13);
        assertThat(returns.stream().map(Recurrence.Return::share)).containsExactly(1.0, 1.0, 0.0, 1.0, 1.0);
        // Weight 2 each: density at the same point is twice the kernel's height, held at 20 times the mean; the mean is
        // 5 bursts in 13 s; both with 0.5 added.
        double mean = 2 * 5.0 / 13;
        double height = Math.min(20 * mean, 2 / (Recurrence.PLACE_SECONDS * Math.sqrt(2 * Math.PI)));
        assertThat(returns.get(0).logDensity()).isCloseTo(Math.log((height + 0.5) / (mean + 0.5)), within(1e-9));
        assertThat(returns.get(2).logDensity()).isCloseTo(Math.log(0.5 / (mean + 0.5)), within(1e-9));
        assertThat(returns).allSatisfy(r -> assertThat(r.weight()).isCloseTo(2, within(1e-12)));
    }

    /** Half-way through a short breath is the same point as half-way through a long one. */
    @Test
    void breathsOfUnequalLengthAreComparedByTheirShareOfTheBreath() {
        Breathing unequal = breaths(0.1, 2, 4, 3, 4);
        assertThat(Recurrence.of(bursts(1.1, 4.1, 7.6), unequal, 13.1).stream().map(Recurrence.Return::share))
                .allSatisfy(share -> assertThat(share).isCloseTo(2.0 / 3, within(1e-12)));
    }

    /** The recording begins in the middle of a breath: that one is laid beside the others by its end. */
    @Test
    void aBreathThatWasCutIsLaidByItsEnd() {
        Breathing cut = breaths(0, 1, 3, 3, 3);
        List<Recurrence.Return> returns = Recurrence.of(bursts(0.5, 3.5, 6.5, 9.5), cut, 10);
        assertThat(returns).allSatisfy(r -> assertThat(r.share()).isEqualTo(1));
    }

    @Test
    void withoutAnotherBreathNothingComesBack() {
        assertThat(Recurrence.of(bursts(1, 2), Breathing.NONE, 5))
                .allSatisfy(
                        r -> assertThat(r.share() + Math.abs(r.logDensity())).isZero());
        assertThat(Recurrence.of(bursts(1, 2), breaths(0, 5), 5))
                .allSatisfy(
                        r -> assertThat(r.share() + Math.abs(r.logDensity())).isZero());
        assertThat(Recurrence.of(List.of(), breaths(0, 3, 3), 6)).isEmpty();
    }

    /** Bursts anywhere, of a mean rate of 2 a second: by chance (Poisson) a place holds one nearby with 1 - exp(-2 * 2 * 0.124 s). */
    @Test
    void burstsAnywhereComeBackAsOftenAsChanceHasIt() {
        SplittableRandom random = new SplittableRandom(7);
        double share = 0;
        int n = 0;
        for (int run = 0; run < 200; run++) {
            double[] times = random.doubles(60, 0, 30).toArray();
            for (Recurrence.Return r : Recurrence.of(bursts(times), breaths(0, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3), 30)) {
                share += r.share();
                n++;
            }
        }
        assertThat(share / n).isCloseTo(1 - Math.exp(-4 * Recurrence.NEAR_SECONDS), within(0.01));
    }

    /** Five breaths with bursts early in each: far beyond chance, and the places are told. */
    @Test
    void breathsThatAgreeAreFarBeyondChance() {
        Breathing breathing = breaths(0.5, 3, 3.2, 2.9, 3.1, 3, 3, 3);
        List<Double> early = new ArrayList<>();
        for (Breath b : breathing.breaths()) {
            double length = b.endSeconds() - b.startSeconds();
            early.add(b.startSeconds() + 0.2 * length);
            early.add(b.startSeconds() + 0.24 * length);
        }
        early.add(15.4);
        BreathAgreement agreement = BreathAgreement.of(
                bursts(early.stream().mapToDouble(Double::doubleValue).toArray()), breathing);
        assertThat(agreement.deviations()).isGreaterThan(4);
        assertThat(agreement.places())
                .hasSize(3)
                .isSorted()
                .doesNotContain(15.4)
                .isSubsetOf(early);
    }

    /** What chance gives: over many draws of bursts anywhere, deviations have mean 0 and rarely pass 2.5. */
    @Test
    void burstsAnywhereAgreeByChanceOnly() {
        SplittableRandom random = new SplittableRandom(11);
        double sum = 0;
        int beyond = 0;
        for (int run = 0; run < 1000; run++) {
            double[] times = random.doubles(20, 0, 30).toArray();
            double d = BreathAgreement.of(bursts(times), breaths(0, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3))
                    .deviations();
            sum += d;
            beyond += d >= 2.5 ? 1 : 0;
        }
        assertThat(sum / 1000).isCloseTo(0, within(0.1));
        assertThat(beyond).isBetween(0, 25);
    }

    /** The heart keeps its own time: 70 beats a minute in breaths of 3.3 s. */
    @Test
    void beatsDoNotAgree() {
        double[] beats = new double[34];
        for (int i = 0; i < beats.length; i++) {
            beats[i] = 0.2 + i * 60 / 70.0;
        }
        assertThat(BreathAgreement.of(bursts(beats), breaths(0, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3))
                        .deviations())
                .isLessThan(2);
    }

    @Test
    void tooFewBreathsAgreeOnNothing() {
        assertThat(BreathAgreement.of(bursts(1, 4, 7), breaths(0.5, 3, 3, 3))).isEqualTo(BreathAgreement.NONE);
        assertThat(BreathAgreement.of(List.of(), breaths(0, 3, 3, 3, 3, 3))).isEqualTo(BreathAgreement.NONE);
        assertThat(BreathAgreement.of(bursts(1), Breathing.NONE)).isEqualTo(BreathAgreement.NONE);
    }

    private static Breathing breaths(double start, double... lengths) {
        List<Breath> breaths = new ArrayList<>();
        double at = start;
        for (double length : lengths) {
            breaths.add(new Breath(at, at + length, List.of(), 1));
            at += length;
        }
        return new Breathing(breaths, null);
    }

    private static List<Burst> bursts(double... seconds) {
        List<Burst> bursts = new ArrayList<>();
        for (double s : seconds) {
            bursts.add(new Burst(s, SCORE, 0.01, 0.7, 5, 1, 15, 0.9, 0.1, true));
        }
        bursts.sort(Comparator.comparingDouble(Burst::seconds));
        return bursts;
    }
}
