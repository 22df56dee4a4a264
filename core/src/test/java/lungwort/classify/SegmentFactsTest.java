package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import lungwort.feature.TimeSpan;
import org.junit.jupiter.api.Test;

class SegmentFactsTest {
    private static final double[] WHOLE = {0.5, 0.2, 0.1, 0.1, 0.1};

    @Test
    void standBehindWhatIsSaidOfTheSegmentAndItsNeighbours() {
        TrainingItem item = NoiseModel.items(1).get(1);
        float[][] frames = new float[2][item.image()[0].length];
        frames[0][3] = 5;
        NetLook seen = new NetLook(new double[] {1.5, -2.5, 3.5}, new double[3], frames);
        List<TimeSpan> spans = List.of(new TimeSpan(0.02, 0.1), new TimeSpan(0.3, 0.5));
        float[][] facts = SegmentFacts.of(spans, seen, item.sounds(), WHOLE);
        assertThat(facts).hasDimensions(2, SegmentFacts.NAMES.size());
        int most = SegmentFacts.NAMES.indexOf("net.continuous.most");
        assertThat(facts[0][most]).isEqualTo(5);
        assertThat(facts[1][most]).isZero();
        for (float[] row : facts) {
            assertThat(Arrays.copyOfRange(row, row.length - 3, row.length)).containsExactly(1.5f, -2.5f, 3.5f);
        }
        double[] p = {0.4, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1};
        float[][] plain = ContextFeatures.of(List.of(new SegmentAnswers(new double[][] {p, p}, new float[0][])), 0);
        float[][] rows = ContextFeatures.of(List.of(new SegmentAnswers(new double[][] {p, p}, facts)), 0);
        assertThat(plain).hasDimensions(2, ContextFeatures.size(false));
        assertThat(rows).hasDimensions(2, ContextFeatures.size(true));
        for (int s = 0; s < 2; s++) {
            assertThat(Arrays.copyOf(rows[s], plain[s].length)).containsExactly(plain[s]);
            assertThat(Arrays.copyOfRange(rows[s], plain[s].length, rows[s].length))
                    .containsExactly(facts[s]);
        }
    }

    @Test
    void ofOtherSegmentsAreRefused() {
        assertThatThrownBy(() -> new SegmentAnswers(new double[2][7], new float[1][4]))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("2 segments, facts of 1");
    }
}
