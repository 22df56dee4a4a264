package lungwort.audio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The limits hold for every decoder, since all of them end here: a few bytes that claim to unfold into hours are stopped on the way. */
class MonoMixTest {
    private static final ReadingOptions MEAN = ReadingOptions.DEFAULT;
    private static final SourceFormat SOURCE = SourceFormat.memory(1_000);

    @Test
    void growsToTenMinutesAndNoFurther() {
        MonoMix mix = new MonoMix("bomb", 1_000, 1, MEAN, 0);
        double[] block = new double[50_000];
        for (int i = 0; i < 12; i++) {
            mix.add(block, block.length);
        }
        assertThatThrownBy(() -> mix.add(block, 1))
                .isInstanceOf(BadInput.class)
                .hasMessage(
                        "bomb: it is longer than the 10 minutes that can be read at its 1000 Hz; cut it to the part you"
                                + " want to examine.");
        assertThat(mix.finish(SOURCE).durationSeconds()).isEqualTo(600);
    }

    @Test
    void highRatesAreHeldToTheSameMemory() {
        assertThatThrownBy(() -> new MonoMix("bomb", 384_000, 1, MEAN, 28_800_001))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("longer than the 75 seconds that can be read at its 384000 Hz");
    }

    @Test
    void droppingMoreThanThereIsLeavesNothing() {
        MonoMix mix = new MonoMix("short", 1_000, 1, MEAN, 0);
        mix.add(new short[] {1, 2, 3}, 3);
        mix.dropLast(1_000_000_000_000L);
        assertThatThrownBy(() -> mix.finish(SOURCE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no sound");
    }

    @Test
    void shortsBecomeFractionsOfFullScale() {
        MonoMix mix = new MonoMix("stereo", 1_000, 2, MEAN, 0);
        mix.add(new short[] {-32_768, 0, 16_384, 16_384}, 2);
        assertThat(mix.finish(SOURCE).samples()).containsExactly(-0.5, 0.5);
    }

    /** The mean of an overdriven channel and another has no flat tops, so nothing later could tell. */
    @ParameterizedTest
    @CsvSource({"6, true", "1, false"})
    void oneOverdrivenChannelIsToldBeforeTheMeanHidesIt(double drive, boolean told) {
        MonoMix mix = new MonoMix("stereo", 8_000, 2, MEAN, 0);
        Random random = new Random(1);
        double[] frames = new double[2 * 8_000];
        for (int i = 0; i < 8_000; i++) {
            frames[2 * i] = Math.max(-1, Math.min(1, drive * Math.sin(i / 7.3)));
            frames[2 * i + 1] = 0.01 * random.nextGaussian();
        }
        mix.add(frames, 8_000);

        List<String> remarks = mix.finish(SOURCE).source().remarks();

        assertThat(
                        remarks.contains(
                                "One of its channels is overdriven (89.3 % of its samples), which distorts the mean: choose the other channel, or record again with less gain."))
                .isEqualTo(told);
        assertThat(remarks).hasSize(told ? 2 : 1);
    }

    @Test
    void aChannelOfAFewStepsIsNotOverdriven() {
        MonoMix mix = new MonoMix("stereo", 8_000, 2, MEAN, 0);
        Random random = new Random(2);
        double[] frames = new double[2 * 8_000];
        for (int i = 0; i < 8_000; i++) {
            frames[2 * i] = 0.3 * random.nextGaussian();
            frames[2 * i + 1] = (random.nextInt(3) - 1) / 32_768.0;
        }
        mix.add(frames, 8_000);
        assertThat(mix.finish(SOURCE).source().remarks()).hasSize(1);
    }
}
