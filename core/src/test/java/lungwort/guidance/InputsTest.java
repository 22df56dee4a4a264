package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.YearMonth;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A wrong value is refused with one sentence that names the field, the value and the range. */
class InputsTest {
    @ParameterizedTest
    @CsvSource({
        "SPO2, 29, 101",
        "RESPIRATORY_RATE, -1, 151",
        "PULSE, 19, 301",
        "TEMPERATURE, 24.9, 45.1",
        "SYSTOLIC, 39, 301",
        "PEAK_FLOW, 19, 901",
        "WEIGHT, 0.9, 350.1",
        "OXYGEN_FLOW, 0, 15.1"
    })
    void aVitalSignOutsideItsRangeIsRefusedAndAtItsEndsTaken(Vital vital, double below, double above) {
        Situation s = Baseline.of(Age.ofYears(40));
        for (double wrong : new double[] {below, above}) {
            assertThatThrownBy(() -> LimitTablesTest.set(s, vital, wrong))
                    .isInstanceOf(BadInput.class)
                    .hasMessageStartingWith(vital.words() + ": " + Vital.number(wrong) + " is outside ")
                    .hasMessageContaining(
                            "outside " + Vital.number(vital.lowest()) + " to " + Vital.number(vital.highest()))
                    .hasMessageEndingWith(
                            vital == Vital.OXYGEN_FLOW
                                    ? "; look again at what is set, say that no extra oxygen was on where none was, or leave it out."
                                    : "; measure again, or leave it out.");
        }
        assertThat(LimitTablesTest.set(s, vital, vital.lowest()).vitals().value(vital))
                .isEqualTo(vital.lowest());
        assertThat(LimitTablesTest.set(s, vital, vital.highest()).vitals().value(vital))
                .isEqualTo(vital.highest());
    }

    @Test
    void aTemperatureThatIsNotANumberIsRefused() {
        assertThatThrownBy(() -> Vitals.NONE.withTemperature(Double.NaN)).isInstanceOf(BadInput.class);
    }

    @Test
    void aWeightThatIsNotANumberIsRefusedAndOthersAreKeptToOneDecimal() {
        assertThatThrownBy(() -> Vitals.NONE.withWeight(Double.NaN)).isInstanceOf(BadInput.class);
        assertThat(Vitals.NONE.withWeight(72.349).weightKg()).isEqualTo(72.3);
        assertThat(Vitals.NONE.withWeight(null).weightKg()).isNull();
    }

    @Test
    void aFlowOfOxygenIsKeptAsFineAsMetersForBabiesAreMarkedAndOnlyWithOxygen() {
        Vitals oxygen = Vitals.NONE.withOnOxygen(true);
        assertThat(oxygen.withOxygenFlow(0.125).oxygenLitresPerMinute()).isEqualTo(0.125);
        assertThat(oxygen.withOxygenFlow(0.125).howMeasured()).isEqualTo("on 0.125 l/min of oxygen");
        assertThat(oxygen.withOxygenFlow(0.06).howMeasured()).isEqualTo("on 0.06 l/min of oxygen");
        assertThat(oxygen.withOxygenFlow(0.33333).oxygenLitresPerMinute()).isEqualTo(0.333);
        assertThat(oxygen.withOxygenFlow(2.0).withOnOxygen(false).oxygenLitresPerMinute())
                .isNull();
        assertThat(oxygen.withOxygenFlow(2.0)
                        .withSpo2(93)
                        .withWeight(70.0)
                        .withPulse(80)
                        .oxygenLitresPerMinute())
                .isEqualTo(2.0);
        assertThatThrownBy(() -> oxygen.withOxygenFlow(Double.NaN)).isInstanceOf(BadInput.class);
        assertThatThrownBy(() -> Vitals.NONE.withOxygenFlow(2.0))
                .isInstanceOf(BadInput.class)
                .hasMessage(
                        "oxygen flow: 2 litres a minute is given, but not whether extra oxygen was on; say that extra oxygen was on, or leave the flow out.");
        assertThatThrownBy(() -> Vitals.NONE.withOnOxygen(false).withOxygenFlow(2.0))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("and that no extra oxygen was on;");
    }

    @ParameterizedTest
    @CsvSource({"7 months, 7", "3 years, 36", "2y 6m, 30", "64y, 768", "0 months, 0", "1 YEAR 1 month, 13", "120y, 1440"
    })
    void anAgeIsRead(String text, int months) {
        assertThat(Age.parse(text).months()).isEqualTo(months);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "old", "7", "-3 years", "121 years", "3 weeks", "9999y", "1y 2y"})
    void anAgeThatCannotBeIsRefused(String text) {
        assertThatThrownBy(() -> Age.parse(text)).isInstanceOf(BadInput.class).hasMessageStartingWith("age: ");
    }

    @Test
    void anAgeInWords() {
        assertThat(Age.ofMonths(1).words()).isEqualTo("1 month");
        assertThat(Age.ofMonths(30).words()).isEqualTo("2 years 6 months");
        assertThat(Age.ofMonths(300).words()).isEqualTo("25 years");
    }

    @Test
    void anAgeFromTheBirthMonth() {
        LocalDate day = LocalDate.of(2026, 11, 25);
        assertThat(Age.on(day, YearMonth.of(2026, 9)).months()).isEqualTo(2);
        assertThatThrownBy(() -> Age.on(day, YearMonth.of(2026, 12)))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("birth month");
        assertThatThrownBy(() -> Age.on(day, YearMonth.of(1900, 1))).isInstanceOf(BadInput.class);
    }

    /** A baby born in the month may be 2 or 3 months old: NICE NG143 calls a fever red below 3 months [S]. */
    @Test
    void whereOnlyTheBirthMonthIsKnownTheGraverAgeCounts() {
        Situation baby = Baseline.of(Age.ofMonths(3));
        Situation hot = baby.with(baby.vitals().withTemperature(38.2));
        assertThat(Guidance.decide(hot).outcome()).isEqualTo(Outcome.NEXT_TAKE);
        assertThat(Guidance.decideFromBirthMonth(hot).outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        for (int months : new int[] {0, 12, 24, 60, 144, 192, 216}) {
            assertThat(Guidance.decideFromBirthMonth(Baseline.of(new Age(months)))
                            .outcome())
                    .isEqualTo(Outcome.KEEP_WATCHING);
        }
    }

    @Test
    void namesAreRefusedWithTheListOfThoseThatAreKnown() {
        assertThatThrownBy(() -> Condition.ofId("asma"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("asthma, copd");
        assertThatThrownBy(() -> TakeReason.ofId("later"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("after-cough");
        assertThatThrownBy(() -> Sites.of("back-left"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("back-lower-left");
        assertThatThrownBy(() -> new EmergencyNumber("help"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("as you would dial them");
        assertThat(new EmergencyNumber(" 112 ").digits()).isEqualTo("112");
    }
}
