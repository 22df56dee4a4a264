package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class ThresholdSearchTest {
    private static double[] segment(double normal) {
        double rest = (1 - normal) / 6;
        return new double[] {normal, rest * 2, rest * 4, 0, 0, 0, 0};
    }

    private static double[] recording(double normal, double poor) {
        double rest = 1 - normal - poor;
        return new double[] {normal, rest, 0, 0, poor};
    }

    @Test
    void separableCasesArePartedInTheMiddleOfTheGap() {
        double[][] segments = {segment(0.9), segment(0.8), segment(0.3), segment(0.2)};
        int[] classes = {0, 0, 2, 2};
        double[][] recordings = {recording(0.9, 0), recording(0.7, 0), recording(0.2, 0), recording(0.1, 0)};
        Thresholds t = ThresholdSearch.choose(segments, classes, recordings, new int[] {0, 0, 1, 1});
        assertThat(t.eventNormal()).isBetween(0.5, 0.6);
        assertThat(t.recordingNormal()).isBetween(0.4, 0.5);
        assertThat(t.segmentClass(segments[2])).isEqualTo(SegmentClass.WHEEZE);
        assertThat(t.segmentClass(segments[0])).isEqualTo(SegmentClass.NORMAL);
        assertThat(t.recordingClass(recordings[3])).isEqualTo(RecordingClass.CONTINUOUS);
    }

    @Test
    void poorQualityIsAnsweredFromAHalf() {
        Thresholds t = new Thresholds(0.5, 0.5, 0.5, 0.5, 0.5);
        assertThat(t.recordingClass(recording(0.3, 0.6))).isEqualTo(RecordingClass.POOR_QUALITY);
        assertThat(t.verdict(recording(0.3, 0.3))).isEqualTo(RecordingClass.BOTH);
    }
}
