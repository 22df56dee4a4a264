package lungwort.quality;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import lungwort.audio.FlatTops;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Levels, overdrive and gaps against their definitions, counted by hand. */
class LevelTest {
    private static final int SECONDS = 6;

    private static QualityMeasures measured(int rateHz, DoubleUnaryOperator signal) {
        QualityMeter meter = new QualityMeter(rateHz);
        meter.push(IntStream.range(0, SECONDS * rateHz)
                .mapToDouble(i -> signal.applyAsDouble((double) i / rateHz))
                .toArray());
        return meter.measures();
    }

    @ParameterizedTest
    @CsvSource({"4000, 1", "8000, 0.1", "44100, 0.01", "48000, 0.5", "96000, 0.001"})
    void theLevelOfASineIsItsAmplitudeOverTheRootOfTwo(int rateHz, double amplitude) {
        double level = measured(rateHz, t -> amplitude * Math.sin(2 * Math.PI * 400.3 * t))
                .levelDbfs();

        assertThat(level).isCloseTo(20 * Math.log10(amplitude / Math.sqrt(2)), within(0.5));
    }

    @ParameterizedTest
    @ValueSource(ints = {4000, 8000, 44100})
    void theLevelOfWhiteNoiseIsItsShareFrom60To2000Hertz(int rateHz) {
        Random random = new Random(7);
        QualityMeasures noise = measured(rateHz, t -> 0.1 * random.nextGaussian());

        double share = (2000 - 60) / (rateHz / 2.0);
        assertThat(noise.levelDbfs()).isCloseTo(-20 + 10 * Math.log10(share), within(0.3));
        assertThat(noise.floorDbfs()).isBetween(noise.levelDbfs() - 3, noise.levelDbfs());
    }

    @Test
    void aConstantHasNoLevelButAPeak() {
        QualityMeasures constant = measured(8000, t -> 0.25);

        assertThat(constant.levelDbfs())
                .as("below the noise of 16 bits, -98 dB")
                .isBetween(-120.0, -100.0);
        assertThat(constant.peak()).isEqualTo(0.25);
        assertThat(constant.standingShare()).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1.05, 1.5, 4})
    void aSineDrivenOverTheTopIsClippedForTheShareOfTimeItWouldBeBeyond(double drive) {
        QualityMeasures clipped =
                measured(48_000, t -> Math.max(-1, Math.min(1, drive * Math.sin(2 * Math.PI * 100 * t))));

        assertThat(clipped.clippedShare()).isCloseTo(1 - 2 / Math.PI * Math.asin(1 / drive), within(0.01));
    }

    /** The run at the top is counted as it grows, whatever lies between. */
    @Test
    void runsAtBothExtremesAreCountedByHand() {
        FlatTops tops = new FlatTops();
        double[] x = {0, .5, .5, .5, 0, .5, .5, 0, .5, .5, .5, .5, -.4, -.4, -.4, .1, -.4};
        Arrays.stream(x).forEach(tops::push);

        assertThat(tops.clipped()).isEqualTo(3 + 4 + 3);
        assertThat(tops.peak()).isEqualTo(.5);
    }

    @Test
    void whatStandsForTwentyMillisecondsIsAGap() {
        Dropouts gaps = new Dropouts(1000);
        for (int i = 0; i < 1000; i++) {
            boolean stands = i >= 100 && i < 120 || i >= 300 && i < 319 || i >= 500 && i < 700;
            gaps.push(stands ? 0.5 : i % 2);
        }

        assertThat(gaps.stretches()).isEqualTo(2);
        assertThat(gaps.samples()).isEqualTo(20 + 200);
    }
}
