package lungwort.quality;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import lungwort.audio.Recording;
import org.junit.jupiter.api.Test;

class QualityCheckTest {
    private static final int RATE_HZ = 4000;

    @Test
    void twoSecondsAreTooShort() {
        assertThat(issues(noise(2.9, 0.05))).contains(QualityIssue.TOO_SHORT);
        assertThat(issues(noise(3.1, 0.05))).doesNotContain(QualityIssue.TOO_SHORT);
    }

    @Test
    void zerosAreSilent() {
        Quality quality = QualityCheck.check(new Recording(new double[8 * RATE_HZ], RATE_HZ, "zeros"));
        assertThat(quality.usable()).isFalse();
        assertThat(quality.findings().get(0).issue()).isEqualTo(QualityIssue.SILENT);
    }

    @Test
    void anEmptyRecordingIsTooShortAndSilent() {
        assertThat(issues(new double[0])).containsExactlyInAnyOrder(QualityIssue.TOO_SHORT, QualityIssue.SILENT);
    }

    @Test
    void soundNearTheStepsOfSixteenBitsIsTooQuiet() {
        assertThat(issues(noise(8, 1e-4))).contains(QualityIssue.TOO_QUIET);
        assertThat(issues(noise(8, 1e-3))).doesNotContain(QualityIssue.TOO_QUIET);
    }

    @Test
    void flatTopsAreOverdriveWhateverTheirHeight() {
        double[] whole = noise(8, 0.1);
        double[] cut = whole.clone();
        for (int i = 0; i < cut.length; i++) {
            cut[i] = Math.max(-0.12, Math.min(0.12, cut[i]));
        }
        assertThat(issues(whole)).doesNotContain(QualityIssue.CLIPPED);
        assertThat(issues(cut)).contains(QualityIssue.CLIPPED);
    }

    private static java.util.List<QualityIssue> issues(double[] samples) {
        return QualityCheck.check(new Recording(samples, RATE_HZ, "test")).findings().stream()
                .map(Quality.Finding::issue)
                .toList();
    }

    private static double[] noise(double seconds, double rms) {
        Random random = new Random(7);
        double[] x = new double[(int) (seconds * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = rms * random.nextGaussian();
        }
        return x;
    }
}
