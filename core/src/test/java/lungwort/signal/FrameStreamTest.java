package lungwort.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class FrameStreamTest {
    @Test
    void framesOfCountedSamplesStartWhereTheHopSays() {
        List<double[]> frames = frames(1000, 100, 7);
        assertThat(frames).hasSize(5);
        for (int k = 0; k < frames.size(); k++) {
            assertThat(frames.get(k)).hasSize(50);
            assertThat(frames.get(k)[0]).isEqualTo(Math.round(k * 12.5));
            assertThat(frames.get(k)[49]).isEqualTo(Math.round(k * 12.5) + 49);
        }
    }

    @Test
    void blocksDoNotMatter() {
        List<double[]> whole = frames(1000, 999, 999);
        for (int block : new int[] {1, 3, 49, 50, 51, 998}) {
            assertThat(frames(1000, 999, block)).usingRecursiveComparison().isEqualTo(whole);
        }
    }

    @Test
    void aFrameOfNoSampleIsRefused() {
        assertThatThrownBy(() -> new FrameStream(1000, 0, 0.1, f -> {})).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FrameStream(1000, 0.1, 0, f -> {})).isInstanceOf(IllegalArgumentException.class);
    }

    private static List<double[]> frames(int rateHz, int samples, int block) {
        List<double[]> frames = new ArrayList<>();
        FrameStream stream = new FrameStream(rateHz, 0.05, 0.0125, frames::add);
        double[] x = new double[samples];
        Arrays.setAll(x, i -> i);
        for (int at = 0; at < samples; at += block) {
            stream.push(Arrays.copyOfRange(x, at, Math.min(samples, at + block)));
        }
        return frames;
    }
}
