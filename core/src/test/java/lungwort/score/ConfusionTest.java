package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class ConfusionTest {
    private static final List<String> CLASSES = List.of("normal", "wheeze-and-crackle", "c");

    private final Confusion confusion = Confusion.of(CLASSES, new int[] {0, 0, 0, 1, 1}, new int[] {0, 0, 1, 1, 2});

    @Test
    void rowsAreTrueClassesColumnsWhatTheyWereCalled() {
        assertThat(confusion.counts()).isEqualTo(List.of(List.of(2, 1, 0), List.of(0, 1, 1), List.of(0, 0, 0)));
        assertThat(confusion.total()).isEqualTo(5);
    }

    @Test
    void recallAndPrecisionByHand() {
        assertThat(confusion.recall(0)).isEqualTo(2.0 / 3);
        assertThat(confusion.recall(1)).isEqualTo(0.5);
        assertThat(confusion.recall(2)).isNaN();
        assertThat(confusion.precision(1)).isEqualTo(0.5);
        assertThat(confusion.precision(2)).isZero();
    }

    @Test
    void everyLineOfTheTableIsAsLongAsTheFirst() {
        List<String> lines = confusion.toText().lines().toList();
        assertThat(lines)
                .hasSize(4)
                .allMatch(line -> line.length() == lines.get(0).length());
        assertThat(lines.get(1)).startsWith("normal").endsWith("0.667");
        assertThat(lines.get(3)).endsWith("-");
    }

    @Test
    void aMatrixThatIsNotSquareIsAFault() {
        assertThatThrownBy(() -> new Confusion(List.of("a", "b"), List.of(List.of(1, 2))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a matrix of 2 classes must be 2 by 2");
    }
}
