package lungwort.feature;

import static lungwort.feature.Probe.RATE;
import static lungwort.feature.Probe.extractor;
import static lungwort.feature.Probe.feature;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FeatureExtractorTest {
    private static double[] noise(double seconds, double level) {
        return Probe.noise(seconds, level, 71);
    }

    /** CORSA: a wheeze lasts over 100 ms and lies above 100 Hz; here one of 400 Hz for 500 ms. */
    @Test
    void aToneIsARidgeOfItsFrequencyThatHolds() {
        double[] x = noise(6, 0.01);
        for (int i = 2 * RATE; i < 2.5 * RATE; i++) {
            x[i] += 0.05 * Math.sin(2 * Math.PI * 400 * i / RATE);
        }
        FeatureExtractor e = extractor(x);
        float[] with = e.segment(1.6, 2.9);
        float[] without = e.segment(4, 5.3);
        assertThat(feature(with, "ridge.held200ms.hz")).isCloseTo(400, within(12.0));
        assertThat(feature(with, "ridge.held200ms.max")).isGreaterThan(feature(without, "ridge.held200ms.max") + 10);
        assertThat(feature(with, "ridge.held400ms.over8dB")).isPositive();
        assertThat(feature(without, "ridge.held400ms.over8dB")).isZero();
    }

    /** Ten clicks of the crackle shape's size: short, broad, far over the noise. */
    @Test
    void clicksRiseOverTheirSurroundings() {
        double[] x = noise(6, 0.005);
        for (int k = 0; k < 10; k++) {
            int at = (int) ((2 + 0.1 * k) * RATE);
            for (int i = 0; i < 40; i++) {
                x[at + i] += 0.2 * Math.exp(-i / 10.0) * Math.sin(2 * Math.PI * 650 * i / RATE);
            }
        }
        FeatureExtractor e = extractor(x);
        float[] with = e.segment(1.95, 3.05);
        float[] without = e.segment(4, 5.1);
        assertThat(feature(with, "rise.700-1400Hz.over12dB")).isBetween(5.0, 14.0);
        assertThat(feature(without, "rise.700-1400Hz.over12dB")).isLessThan(1);
        assertThat(feature(with, "wave.kurtosis")).isGreaterThan(feature(without, "wave.kurtosis") + 3);
    }

    /** A device's gain must cancel: issue of every phone and stethoscope. */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5, 10})
    void gainChangesNothing(double gain) {
        double[] x = noise(4, 0.05);
        double[] louder = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            louder[i] = gain * x[i];
        }
        float[] a = extractor(x).segment(1, 2.5);
        float[] b = extractor(louder).segment(1, 2.5);
        for (int j = 0; j < a.length; j++) {
            assertThat((double) b[j])
                    .as(FeatureCatalogue.segment().features().get(j).name())
                    .isCloseTo(a[j], within(1e-3 * Math.max(1, Math.abs(a[j]))));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.001, 0.05, 0.31, 1.0, 3.7})
    void anyLengthGivesFiniteNumbers(double seconds) {
        for (double[] x : List.of(noise(seconds, 0.1), noise(seconds, 0))) {
            FeatureExtractor e = extractor(x);
            assertThat(e.windows()).isNotEmpty();
            for (TimeSpan span : e.windows()) {
                for (float v : e.segment(span.startSeconds(), span.endSeconds())) {
                    assertThat(v).isFinite();
                }
            }
            for (float v : e.recording()) {
                assertThat(v).isFinite();
            }
        }
    }

    /** Annotators' times may lie beyond the file's end: what is counted there would be counted over time that was not recorded. */
    @Test
    void spansAreHeldInsideTheRecording() {
        FeatureExtractor e = extractor(noise(3, 0.1));
        assertThat(e.segment(2, 9)).isEqualTo(e.segment(2, 3));
        assertThat(e.segment(-4, 1)).isEqualTo(e.segment(0, 1));
        assertThat(e.segment(-4, 9)).isEqualTo(e.segment(0, 3));
        assertThat(e.segment(5, 6)).isEqualTo(e.segment(3, 3));
    }

    @Test
    void windowsCoverTheRecordingEvenly() {
        List<TimeSpan> windows = extractor(noise(10.3, 0.1)).windows();
        assertThat(windows.get(0).startSeconds()).isZero();
        assertThat(windows.get(windows.size() - 1).endSeconds()).isCloseTo(10.3, within(1e-9));
        for (int i = 1; i < windows.size(); i++) {
            double hop = windows.get(i).startSeconds() - windows.get(i - 1).startSeconds();
            assertThat(hop).isBetween(0.6, 1.0);
        }
    }
}
