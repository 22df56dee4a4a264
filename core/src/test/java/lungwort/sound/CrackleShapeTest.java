package lungwort.sound;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The mathematical crackle (Kiyokawa et al., Chest 2001 [M]) has the widths it is asked for; widths of fine and coarse: ATS 1977 [M]. */
class CrackleShapeTest {
    @ParameterizedTest
    @CsvSource({"0.7, 5", "1.5, 10", "2.2, 15", "0.5, 3.3"})
    void returnsToTheBaselineAtIdwAndAfterTwoCycles(double idwMs, double twoCycleMs) {
        List<Double> crossings = crossings(new CrackleShape(idwMs, twoCycleMs), twoCycleMs);
        assertThat(crossings).hasSize(3);
        assertThat(crossings.get(0)).isCloseTo(idwMs, within(1e-3));
        assertThat(new CrackleShape(idwMs, twoCycleMs).at(twoCycleMs)).isZero();
    }

    @Test
    void theSecondDeflectionIsTheLargestAndItsWidthIsTold() {
        CrackleShape shape = new CrackleShape(0.7, 5);
        List<Double> crossings = crossings(shape, 5);
        assertThat(shape.largestDeflectionWidthMs()).isCloseTo(crossings.get(1) - crossings.get(0), within(2e-3));
    }

    @Test
    void peaksAtOne() {
        CrackleShape shape = new CrackleShape(1.5, 10);
        double most = 0;
        for (int i = 0; i < 10_000; i++) {
            most = Math.max(most, Math.abs(shape.at(i / 1000.0)));
        }
        assertThat(most).isCloseTo(1, within(1e-4));
    }

    @Test
    void refusesAnInitialDeflectionThatDoesNotFit() {
        assertThatThrownBy(() -> new CrackleShape(3, 5))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("less than half");
    }

    private static List<Double> crossings(CrackleShape shape, double twoCycleMs) {
        List<Double> found = new ArrayList<>();
        double step = 1e-3;
        for (double t = step; t + step < twoCycleMs; t += step) {
            if (shape.at(t) * shape.at(t + step) < 0) {
                found.add(t + step / 2);
            }
        }
        return found;
    }
}
