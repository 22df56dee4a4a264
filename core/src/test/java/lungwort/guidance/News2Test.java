package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import java.util.function.DoubleFunction;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** NEWS2 (Royal College of Physicians 2017), REFERENCE.md section 2: the bands [S], the levels of the total [P]. Every value of every band, typed from the reference. */
class News2Test {
    private static final Age ADULT = Age.ofYears(60);

    private static News2 score(NextStep step) {
        return Objects.requireNonNull(step.news2());
    }

    private static int points(Situation situation, String part) {
        return score(Guidance.decide(situation)).parts().stream()
                .filter(p -> p.name().contains(part))
                .findFirst()
                .orElseThrow()
                .points();
    }

    private static void sweep(
            int from, int to, String part, DoubleFunction<Situation> at, DoubleFunction<Integer> expected) {
        for (int value = from; value <= to; value++) {
            assertThat(points(at.apply(value), part))
                    .as("%s at %d", part, value)
                    .isEqualTo(expected.apply(value));
        }
    }

    private static Situation with(Vitals vitals) {
        return Baseline.of(ADULT).with(vitals);
    }

    private static Vitals vitals() {
        return Baseline.vitals(ADULT);
    }

    @Test
    void respiratoryRate() {
        sweep(
                0,
                60,
                "breathing rate",
                v -> with(vitals().withRespiratoryRate((int) v)),
                v -> v <= 8 ? 3 : v <= 11 ? 1 : v <= 20 ? 0 : v <= 24 ? 2 : 3);
    }

    @Test
    void oxygenOnScale1() {
        sweep(60, 100, "SpO2", v -> with(vitals().withSpo2((int) v)), v -> v <= 91 ? 3 : v <= 93 ? 2 : v <= 95 ? 1 : 0);
    }

    @Test
    void oxygenOnScale2OnAirAndOnOxygen() {
        ClinicianLimits scale2 = new ClinicianLimits(null, null, null, true, null, "a chest physician", "");
        sweep(
                60,
                100,
                "SpO2",
                v -> with(vitals().withSpo2((int) v).withOnOxygen(false)).with(scale2),
                v -> v <= 83 ? 3 : v <= 85 ? 2 : v <= 87 ? 1 : 0);
        sweep(
                60,
                100,
                "SpO2",
                v -> with(vitals().withSpo2((int) v).withOnOxygen(true)).with(scale2),
                v -> v <= 83 ? 3 : v <= 85 ? 2 : v <= 87 ? 1 : v <= 92 ? 0 : v <= 94 ? 1 : v <= 96 ? 2 : 3);
    }

    /** What was measured is never called unknown, only because a clinician's limits stand in the place of its points. */
    @Test
    void aPartThatAClinicianSetLimitsForIsSaidToBeLeftOutForThat() {
        ClinicianLimits own =
                new ClinicianLimits(new ClinicianLimits.Limit(87, 84), null, null, false, null, "a physician", "");

        assertThat(Guidance.decide(with(vitals().withSpo2(90)).with(own)).news2())
                .isNotNull()
                .satisfies(n -> assertThat(n.missing()).containsExactly("SpO2 (a clinician set limits for it)"));
    }

    @Test
    void scale2IsUsedOnlyWhereAClinicianSetIt() {
        Situation risk = with(vitals().withSpo2(90)).with(Conditions.of(Condition.COPD, Condition.HYPERCAPNIA_RISK));
        assertThat(points(risk, "SpO2")).isEqualTo(3);
        assertThat(Guidance.decide(risk).outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        assertThat(Guidance.decide(risk).cautions())
                .anyMatch(c -> c.contains("88 to 92 %") && c.contains("Only a clinician"));
        Situation set = risk.with(new ClinicianLimits(null, null, null, true, null, "a chest physician", ""));
        assertThat(points(set, "SpO2")).isZero();
        assertThat(Guidance.decide(set).outcome()).isEqualTo(Outcome.KEEP_WATCHING);
        Assertions.assertThatThrownBy(() -> new ClinicianLimits(null, null, null, true, null, " ", ""))
                .hasMessageContaining("only limits set by a clinician");
    }

    @Test
    void airOrOxygen() {
        assertThat(points(with(vitals().withOnOxygen(true)), "air or oxygen")).isEqualTo(2);
        assertThat(points(with(vitals().withOnOxygen(false)), "air or oxygen")).isZero();
    }

    @Test
    void pulse() {
        sweep(
                20,
                200,
                "pulse",
                v -> with(vitals().withPulse((int) v)),
                v -> v <= 40 ? 3 : v <= 50 ? 1 : v <= 90 ? 0 : v <= 110 ? 1 : v <= 130 ? 2 : 3);
    }

    @Test
    void consciousness() {
        for (Consciousness level : Consciousness.values()) {
            assertThat(points(with(vitals().withConsciousness(level)), "consciousness"))
                    .isEqualTo(level == Consciousness.ALERT ? 0 : 3);
        }
    }

    @Test
    void temperature() {
        sweep(
                300,
                430,
                "temperature",
                v -> with(vitals().withTemperature(v / 10)),
                v -> v <= 350 ? 3 : v <= 360 ? 1 : v <= 380 ? 0 : v <= 390 ? 1 : 2);
    }

    @Test
    void systolicPressure() {
        sweep(
                50,
                260,
                "blood pressure",
                v -> with(vitals().withSystolic((int) v)),
                v -> v <= 90 ? 3 : v <= 100 ? 2 : v <= 110 ? 1 : v <= 219 ? 0 : 3);
    }

    /** Oxygen 2, rate 10: 1, pulse 100: 1, temperature 39.0: 1, systolic 105: 1, SpO2 95: 1. */
    @ParameterizedTest
    @CsvSource({"4, next", "5, seen", "6, seen", "7, emergency"})
    void theTotalIsUrgentFrom5AndAnEmergencyFrom7(int total, String level) {
        Vitals v = vitals().withOnOxygen(true).withRespiratoryRate(10).withPulse(100);
        v = total >= 5 ? v.withTemperature(39.0) : v;
        v = total >= 6 ? v.withSystolic(105) : v;
        v = total >= 7 ? v.withSpo2(95) : v;
        NextStep step = Guidance.decide(with(v));
        assertThat(score(step).total()).isEqualTo(total);
        assertThat(Baseline.cites(step, "news2-urgent", "NEWS2", "P")).isEqualTo(level.equals("seen"));
        assertThat(Baseline.cites(step, "news2-emergency", "NEWS2", "P")).isEqualTo(level.equals("emergency"));
        assertThat(step.outcome())
                .isEqualTo(
                        switch (level) {
                            case "seen" -> Outcome.BE_SEEN_TODAY;
                            case "emergency" -> Outcome.EMERGENCY_NOW;
                            default -> Outcome.KEEP_WATCHING;
                        });
    }

    @ParameterizedTest
    @CsvSource({
        "RESPIRATORY_RATE, 9, 8",
        "RESPIRATORY_RATE, 24, 25",
        "SPO2, 92, 91",
        "PULSE, 41, 40",
        "PULSE, 130, 131",
        "TEMPERATURE, 35.1, 35.0",
        "SYSTOLIC, 91, 90",
        "SYSTOLIC, 219, 220"
    })
    void threePointsInOnePartAreUrgent(Vital vital, double within, double crossing) {
        NextStep step = Guidance.decide(LimitTablesTest.set(Baseline.of(ADULT), vital, crossing));
        assertThat(step.outcome().atLeast(Outcome.BE_SEEN_TODAY)).isTrue();
        assertThat(step.reasons())
                .anyMatch(r -> r.rule().startsWith("news2-" + vital.id())
                        && r.rule().endsWith("-3")
                        && r.mark().equals("P"));
        NextStep milder = Guidance.decide(LimitTablesTest.set(Baseline.of(ADULT), vital, within));
        assertThat(milder.reasons())
                .noneMatch(r -> r.rule().startsWith("news2-") && r.rule().endsWith("-3"));
    }

    @Test
    void onScale2TooMuchOxygenIsUrgentToo() {
        ClinicianLimits scale2 = new ClinicianLimits(null, null, null, true, null, "a chest physician", "");
        Situation on = with(vitals().withOnOxygen(true)).with(scale2);
        assertThat(Guidance.decide(on.with(on.vitals().withSpo2(97))).reasons())
                .anyMatch(r -> r.rule().equals("news2-spo2-scale-2-oxygen-high-3"));
        assertThat(Guidance.decide(on.with(on.vitals().withSpo2(96))).outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(Guidance.decide(on.with(on.vitals().withSpo2(97).withOnOxygen(false)))
                        .outcome())
                .isEqualTo(Outcome.KEEP_WATCHING);
    }

    @Test
    void itIsNotForChildrenNorForPregnancy() {
        assertThat(Guidance.decide(Baseline.of(Age.ofMonths(191))).news2()).isNull();
        assertThat(Guidance.decide(Baseline.of(Age.ofMonths(192))).news2()).isNotNull();
        NextStep pregnant = Guidance.decide(Baseline.of(Age.ofYears(30)).with(Conditions.of(Condition.PREGNANCY)));
        assertThat(pregnant.news2()).isNull();
        assertThat(pregnant.cautions()).anyMatch(c -> c.contains("pregnancy") && c.contains("NEWS2"));
    }

    @Test
    void aPartThatIsMissingIsNamedAndScoredNeitherAsNormalNorAtAll() {
        Situation some = with(Vitals.NONE.withRespiratoryRate(26).withPulse(115));
        NextStep step = Guidance.decide(some);
        assertThat(score(step).total()).isEqualTo(5);
        assertThat(score(step).complete()).isFalse();
        assertThat(score(step).missing())
                .contains("SpO2", "temperature", "air or oxygen")
                .doesNotContain("pulse");
        assertThat(step.reasons()).anyMatch(r -> r.text().contains("5 or more (not scored:"));
    }

    @Test
    void onScale2AHighReadingIsNotScoredWhileNobodySaidWhetherOxygenIsGiven() {
        ClinicianLimits scale2 = new ClinicianLimits(null, null, null, true, null, "a chest physician", "");
        NextStep step =
                Guidance.decide(with(vitals().withSpo2(97).withOnOxygen(null)).with(scale2));
        assertThat(score(step).missing()).contains("SpO2", "air or oxygen");
        assertThat(step.outcome()).isEqualTo(Outcome.NEXT_TAKE);
    }
}
