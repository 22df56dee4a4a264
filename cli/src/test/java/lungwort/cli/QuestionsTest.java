package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import lungwort.guidance.RateSource;
import lungwort.guidance.Vitals;
import org.junit.jupiter.api.Test;

class QuestionsTest {
    /** What another window stored while the terminal asked stands; only what nobody stored is filled in. */
    @Test
    void whatWasStoredMeanwhileStands() {
        Vitals stored = Vitals.NONE
                .withSpo2(88)
                .withRespiratoryRate(40, RateSource.HEARD)
                .withPeakFlow(200);
        Vitals given = Vitals.NONE
                .withSpo2(97)
                .withOnOxygen(false)
                .withRespiratoryRate(22)
                .withPulse(101)
                .withTemperature(38.4);
        Vitals filled = Questions.filled(stored, given);
        assertThat(filled).isEqualTo(stored.withOnOxygen(false).withPulse(101).withTemperature(38.4));
        assertThat(Questions.filled(Vitals.NONE, given)).isEqualTo(given);
        assertThat(Questions.filled(stored, Vitals.NONE)).isEqualTo(stored);
    }
}
