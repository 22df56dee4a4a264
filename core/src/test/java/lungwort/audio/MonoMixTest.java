package lungwort.audio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import lungwort.BadInput;
import org.junit.jupiter.api.Test;

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
}
