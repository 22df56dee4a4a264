package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Respiratory rate by age, Fleming et al., Lancet 2011, 1st / 10th-90th / 99th centile (REFERENCE.md section 2) [S]: each on both sides, at both ends of its ages. */
class FlemingTest {
    @ParameterizedTest
    @CsvSource({
        "0, 3, 25, 34, 57, 66", "3, 6, 24, 33, 55, 64", "6, 9, 23, 31, 52, 61", "9, 12, 22, 30, 50, 58",
                "12, 18, 21, 28, 46, 53",
        "18, 24, 19, 25, 40, 46", "24, 36, 18, 22, 34, 38", "36, 48, 17, 21, 29, 33", "48, 72, 17, 20, 27, 29",
                "72, 96, 16, 18, 24, 27",
        "96, 144, 14, 16, 22, 25", "144, 180, 12, 15, 21, 23", "180, 216, 11, 13, 19, 22"
    })
    void aRateOutsideTheCentilesOfTheAgeIsNamed(int from, int before, int p1, int p10, int p90, int p99) {
        String id = "fleming-%d-%d-months-".formatted(from, before);
        for (int months : List.of(from, before - 1)) {
            check(months, id + "p1", p1, p1 - 1, Outcome.BE_SEEN_TODAY);
            check(months, id + "p10", p10, p10 - 1, Outcome.NEXT_TAKE);
            check(months, id + "p90", p90, p90 + 1, Outcome.NEXT_TAKE);
            check(months, id + "p99", p99, p99 + 1, Outcome.BE_SEEN_TODAY);
        }
        assertThat(Baseline.names(at(before, p99 + 40), id + "p99")).isFalse();
    }

    /** Asleep is slower than awake [P]: rather slow is then no reason by itself, very slow and fast still are. */
    @Test
    void aRateTakenAsleepMayBeRatherSlow() {
        Situation asleep = Baseline.of(new Age(2));
        asleep = asleep.with(asleep.vitals().withAsleep(true));
        for (int rate : List.of(24, 58)) {
            assertThat(Guidance.decide(asleep.with(asleep.vitals().withRespiratoryRate(rate)))
                            .outcome()
                            .atLeast(Outcome.NEXT_TAKE))
                    .isTrue();
        }
        assertThat(Guidance.decide(asleep.with(asleep.vitals().withRespiratoryRate(33)))
                        .outcome())
                .isEqualTo(Outcome.KEEP_WATCHING);
        assertThat(Baseline.names(at(2, 33), "fleming-0-3-months-p10")).isTrue();
    }

    private static void check(int months, String rule, int within, int crossing, Outcome outcome) {
        NextStep step = at(months, crossing);
        assertThat(Baseline.cites(step, rule, "Fleming", "S"))
                .as("%s at %d months", rule, months)
                .isTrue();
        assertThat(step.outcome().atLeast(outcome)).isTrue();
        assertThat(Baseline.names(at(months, within), rule))
                .as("%s at %d months, within", rule, months)
                .isFalse();
    }

    private static NextStep at(int months, int rate) {
        Situation person = Baseline.of(new Age(months));
        return Guidance.decide(person.with(person.vitals().withRespiratoryRate(rate)));
    }
}
