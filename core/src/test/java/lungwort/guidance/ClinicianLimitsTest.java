package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Limits that a clinician set take the place of the general ones, on both sides of each; danger signs stay. */
class ClinicianLimitsTest {
    private static final ClinicianLimits OWN = new ClinicianLimits(
            new ClinicianLimits.Limit(87, 84),
            new ClinicianLimits.Limit(28, 34),
            new ClinicianLimits.Limit(115, 140),
            false,
            null,
            "Dr Example",
            "2026-03-14");

    private static Situation person() {
        return Baseline.of(Age.ofYears(66)).with(OWN);
    }

    @ParameterizedTest
    @CsvSource({
        "SPO2, 88, KEEP_WATCHING",
        "SPO2, 87, BE_SEEN_TODAY",
        "SPO2, 85, BE_SEEN_TODAY",
        "SPO2, 84, EMERGENCY_NOW",
        "RESPIRATORY_RATE, 27, KEEP_WATCHING",
        "RESPIRATORY_RATE, 28, BE_SEEN_TODAY",
        "RESPIRATORY_RATE, 33, BE_SEEN_TODAY",
        "RESPIRATORY_RATE, 34, EMERGENCY_NOW",
        "PULSE, 114, KEEP_WATCHING",
        "PULSE, 115, BE_SEEN_TODAY",
        "PULSE, 139, BE_SEEN_TODAY",
        "PULSE, 140, EMERGENCY_NOW"
    })
    void theyReplaceTheGeneralLimits(Vital vital, double value, Outcome outcome) {
        NextStep step = Guidance.decide(LimitTablesTest.set(person(), vital, value));
        assertThat(step.outcome()).isEqualTo(outcome);
        assertThat(step.cautions()).anyMatch(c -> c.contains("a clinician set for this person"));
        if (outcome != Outcome.KEEP_WATCHING) {
            assertThat(step.reasons())
                    .hasSize(1)
                    .first()
                    .matches(r -> r.source().contains("Dr Example, 2026-03-14")
                            && r.mark().equals("clinician"));
        }
    }

    @Test
    void theOtherSideKeepsTheGeneralLimits() {
        assertThat(Guidance.decide(LimitTablesTest.set(person(), Vital.RESPIRATORY_RATE, 8))
                        .outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Guidance.decide(LimitTablesTest.set(person(), Vital.PULSE, 40))
                        .outcome())
                .isEqualTo(Outcome.BE_SEEN_TODAY);
    }

    @Test
    void dangerSignsCannotBeReplaced() {
        assertThat(Guidance.decide(person().with(DangerAnswers.noneOf(Age.ofYears(66), List.of("blue"))))
                        .outcome())
                .isEqualTo(Outcome.EMERGENCY_NOW);
    }

    @Test
    void whatWouldChangeNamesTheirValues() {
        assertThat(Guidance.decide(person()).wouldChange())
                .contains("SpO2 84 % or less: emergency.", "SpO2 87 % or less: be seen today.");
    }

    @Test
    void scale2OfAChildIsNotUsedAndThatIsSaid() {
        Age age = Age.ofYears(9);
        Situation child = Baseline.of(age).with(new ClinicianLimits(null, null, null, true, null, "Dr Example", ""));
        NextStep step = Guidance.decide(child.with(child.vitals().withSpo2(89)));
        assertThat(step.outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        assertThat(step.cautions()).anyMatch(c -> c.contains("scale 2 was made for adults"));
    }

    @Test
    void limitsThatMakeNoSenseAreRefused() {
        assertThatThrownBy(() -> new ClinicianLimits(
                        new ClinicianLimits.Limit(84, 87), null, null, false, null, "Dr Example", ""))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("swap them");
        assertThatThrownBy(() -> new ClinicianLimits(
                        null, new ClinicianLimits.Limit(400, 500), null, false, null, "Dr Example", ""))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("outside 0 to 150");
        assertThatThrownBy(
                        () -> new ClinicianLimits(null, null, new ClinicianLimits.Limit(115, 140), false, null, "", ""))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("name of who set them");
    }
}
