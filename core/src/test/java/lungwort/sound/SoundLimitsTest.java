package lungwort.sound;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The edges of the definitions. Marks: [S] seen in a review, [M] from memory. */
class SoundLimitsTest {
    /** CORSA (Sovijarvi et al., Eur Respir Rev 2000) [S]: wheeze > 100 Hz, > 100 ms; rhonchus < 300 Hz, >= 100 ms. The overlap is split at 200 Hz, ATS's rhonchus. */
    @ParameterizedTest
    @CsvSource({
        "301, 0.101, WHEEZE",
        "301, 0.100, ",
        "299, 0.100, RHONCHUS",
        "299, 0.101, WHEEZE",
        "200, 0.300, WHEEZE",
        "199, 0.300, RHONCHUS",
        "100, 0.300, RHONCHUS",
        "99, 0.100, RHONCHUS",
        "99, 0.099, ",
        "400, 0.250, WHEEZE"
    })
    void corsa(double hz, double seconds, SoundKind kind) {
        assertThat(SoundLimits.CORSA.continuousKind(hz, seconds)).isEqualTo(Optional.ofNullable(kind));
    }

    /** ATS 1977 [S]: wheeze >= 400 Hz, > 250 ms; rhonchus < 200 Hz, > 250 ms; nothing between. */
    @ParameterizedTest
    @CsvSource({
        "400, 0.251, WHEEZE",
        "399, 0.251, ",
        "400, 0.250, ",
        "200, 0.251, ",
        "199, 0.251, RHONCHUS",
        "199, 0.249, "
    })
    void ats(double hz, double seconds, SoundKind kind) {
        assertThat(SoundLimits.ATS.continuousKind(hz, seconds)).isEqualTo(Optional.ofNullable(kind));
    }

    /** Bohadana et al., NEJM 2014 [S]: wheeze 100 to 5000 Hz, > 80 ms; rhonchus about 150 Hz, > 80 ms. */
    @ParameterizedTest
    @CsvSource({
        "400, 0.081, WHEEZE",
        "400, 0.080, ",
        "5000, 0.081, WHEEZE",
        "5001, 0.081, ",
        "150, 0.081, RHONCHUS",
        "150, 0.079, ",
        "99, 0.081, RHONCHUS"
    })
    void nejm(double hz, double seconds, SoundKind kind) {
        assertThat(SoundLimits.NEJM.continuousKind(hz, seconds)).isEqualTo(Optional.ofNullable(kind));
    }

    /**
     * CORSA [S]: fine below 10 ms of 2CD; ATS [M]: 5 ms fine, 10 ms coarse; NEJM 2014 [S]: about 5 ms fine, about 15 ms coarse. The crackle is the mathematical one with ATS's
     * proportions (IDW 0.15 2CD).
     */
    @ParameterizedTest
    @CsvSource({
        "CORSA, 9.9, FINE_CRACKLE",
        "CORSA, 10.1, COARSE_CRACKLE",
        "ATS, 5, FINE_CRACKLE",
        "ATS, 10, COARSE_CRACKLE",
        "NEJM, 5, FINE_CRACKLE",
        "NEJM, 15, COARSE_CRACKLE"
    })
    void crackles(String name, double twoCycleMs, SoundKind kind) {
        SoundLimits limits = switch (name) {
            case "ATS" -> SoundLimits.ATS;
            case "NEJM" -> SoundLimits.NEJM;
            default -> SoundLimits.CORSA;
        };
        double largest = new CrackleShape(0.15 * twoCycleMs, twoCycleMs).largestDeflectionWidthMs();
        assertThat(limits.crackleKind(largest)).isEqualTo(kind);
    }

    @Test
    void limitsOutOfOrderAreRefused() {
        assertThatThrownBy(() -> new SoundLimits("mine", 400, 100, 0.1, 300, 0.1, 200, 10, 20))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("mine");
    }
}
