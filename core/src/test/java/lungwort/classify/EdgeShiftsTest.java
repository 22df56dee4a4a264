package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import lungwort.BadInput;
import lungwort.feature.TimeSpan;
import org.junit.jupiter.api.Test;

class EdgeShiftsTest {
    private static final float[] ANY = {0};

    /** Trees that all say nothing, after a start that says all. */
    private static BoostedTrees always(double value) {
        TreeTable.Builder table = new TreeTable.Builder();
        table.startTree();
        table.leaf();
        return new BoostedTrees(2, new double[] {value}, table.build(), new short[] {0}, new short[] {1});
    }

    private static void assertMoved(double start, double end, double byStart, double byEnd, double from, double to) {
        TimeSpan moved = new EdgeShifts(always(byStart), always(byEnd)).moved(new TimeSpan(start, end), ANY, 3);
        assertThat(moved.startSeconds()).isEqualTo(from, within(1e-12));
        assertThat(moved.endSeconds()).isEqualTo(to, within(1e-12));
    }

    @Test
    void eachEdgeIsMovedByItsOwnNumber() {
        assertMoved(1, 2, -0.3, 0.2, 0.7, 2.2);
    }

    @Test
    void theStretchStaysInTheRecordingAndKeepsALength() {
        assertMoved(0.2, 2.9, -0.5, 0.5, 0, 3);
        assertMoved(1, 1.5, 0.4, -0.4, 1.4, 1.5);
        assertMoved(2.5, 2.9, 5, 5, 2.9, 3);
        assertMoved(0.1, 0.5, -5, -5, 0, 0.1);
    }

    @Test
    void treesOfSeveralClassesGiveNoNumber() {
        TreeTable.Builder table = new TreeTable.Builder();
        table.startTree();
        table.leaf();
        BoostedTrees three = new BoostedTrees(3, new double[3], table.build(), new short[] {0}, new short[] {1});
        assertThatThrownBy(() -> new EdgeShifts(always(0), three)).isInstanceOf(BadInput.class);
        assertThatThrownBy(() -> new EdgeShifts(three, always(0))).isInstanceOf(BadInput.class);
    }
}
