package lungwort.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import lungwort.audio.Recording;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ChestViewsTest {
    @ParameterizedTest
    @ValueSource(ints = {4000, 8000, 10_000, 44_100})
    void aToneIsFoundAtItsTimeAndFrequencyWhateverTheRate(int rate) {
        double[] x = new double[2 * rate];
        for (int i = rate; i < x.length; i++) {
            x[i] = 0.3 + 0.5 * Math.sin(2 * Math.PI * 400 * i / rate);
        }
        ChestViews views = ChestViews.of(new Recording(x, rate, "tone"));
        Spectrogram view = views.longWindow();
        int frame = view.frameOf(1.5);
        assertThat(view.bandPower(frame, 380, 420)).isCloseTo(0.125, within(0.004));
        assertThat(view.bandPower(view.frameOf(0.5), 380, 420)).isLessThan(1e-6);
        assertThat(views.crackle()).hasSize(2 * ChestViews.CRACKLE_RATE_HZ);
        assertThat(views.shortWindow().frames()).isGreaterThan(450);
    }

    @Test
    void manyThreadsShareOneView() {
        ChestViews views = ChestViews.of(new Recording(new double[20_000], 8000, "still"));
        List<Spectrogram> seen = IntStream.range(0, 16)
                .parallel()
                .mapToObj(i -> views.longWindow())
                .toList();
        assertThat(seen).allSatisfy(one -> assertThat(one).isSameAs(views.longWindow()));
    }

    @Test
    void anEmptyRecordingHasEmptyViews() {
        ChestViews views = ChestViews.of(new Recording(new double[0], 8000, "empty"));
        assertThat(views.analysis()).isEmpty();
        assertThat(views.longWindow().frames()).isZero();
        assertThat(views.crackle()).isEmpty();
    }
}
