package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import smile.classification.RandomForest;
import smile.data.DataFrame;

class SmileForestsTest {
    /** The outside check is the library itself: our tables must decide and count exactly as its trees do. */
    @Test
    void theCompactForestGivesExactlyTheLibrarysProbabilities() {
        Rows rows = Rows.quadrants(500, 8, 4, 11);
        SmileForests.Settings settings = new SmileForests.Settings(25, 0, 200, 2, 1.0, 3);
        RandomForest library = SmileForests.grow(rows.x, rows.y, settings);
        CountForest ours = SmileForests.fit(rows.x, rows.y, 4, settings);
        Rows unseen = Rows.quadrants(500, 8, 4, 12);
        DataFrame frame = SmileForests.frame(unseen.x, unseen.y);
        for (int i = 0; i < unseen.x.length; i++) {
            double[] expected = new double[4];
            library.predict(frame.get(i), expected);
            assertThat(ours.probabilities(unseen.x[i])).isEqualTo(expected);
        }
    }

    /** Small collections lack classes: those that are there keep their own names, whatever the library calls them. */
    @Test
    void classesWithoutARowAreNeverGivenAndTheOthersKeepTheirOrder() {
        Rows rows = Rows.quadrants(300, 4, 2, 31);
        SmileForests.Settings settings = new SmileForests.Settings(15, 0, 100, 1, 0.8, 9);
        CountForest plain = SmileForests.fit(rows.x, rows.y, 2, settings);
        int[] moved = Arrays.stream(rows.y).map(c -> c == 0 ? 2 : 5).toArray();
        CountForest sparse = SmileForests.fit(rows.x, moved, 7, settings);
        for (float[] x : rows.x) {
            double[] p = plain.probabilities(x);
            double[] q = sparse.probabilities(x);
            assertThat(q[0])
                    .isEqualTo(q[1])
                    .isEqualTo(q[3])
                    .isEqualTo(q[4])
                    .isEqualTo(q[6])
                    .isLessThanOrEqualTo(Math.min(q[2], q[5]));
            assertThat(Math.signum(q[2] - q[5])).isEqualTo(Math.signum(p[0] - p[1]));
        }
        assertThatThrownBy(() -> SmileForests.fit(rows.x, new int[rows.x.length], 2, settings))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("one class");
    }

    /** Rows that lie exactly on a split must fall on the library's side of it. */
    @Test
    void decidesAsTheLibraryDoesOnItsOwnTrainingRows() {
        Rows rows = Rows.quadrants(300, 3, 2, 21);
        for (float[] x : rows.x) {
            for (int j = 0; j < x.length; j++) {
                x[j] = Math.round(x[j] * 4) / 4f;
            }
        }
        SmileForests.Settings settings = new SmileForests.Settings(15, 0, 100, 1, 0.8, 9);
        RandomForest library = SmileForests.grow(rows.x, rows.y, settings);
        CountForest ours = SmileForests.fit(rows.x, rows.y, 2, settings);
        DataFrame frame = SmileForests.frame(rows.x, rows.y);
        for (int i = 0; i < rows.x.length; i++) {
            double[] expected = new double[2];
            library.predict(frame.get(i), expected);
            assertThat(ours.probabilities(rows.x[i])).isEqualTo(expected);
        }
    }
}
