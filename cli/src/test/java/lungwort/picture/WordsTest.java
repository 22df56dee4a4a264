package lungwort.picture;

import static org.assertj.core.api.Assertions.assertThat;

import lungwort.diary.Examples;
import org.junit.jupiter.api.Test;

class WordsTest {
    @Test
    void whereToListenFirstIsToldKindByKind() {
        assertThat(Words.heardAt(Examples.examination(0, 0))).isEmpty();
        assertThat(Words.heardAt(Examples.examination(0, 9))).isEqualTo("crackles at 1.9 to 3.0 s");
        assertThat(Words.heardAt(Examples.examination(3, 9)))
                .isEqualTo("continuous sound at 0.9 to 1.6 s, 1.9 to 2.6 s and 2.9 to 3.6 s; crackles at 1.9 to 3.0 s");
    }
}
