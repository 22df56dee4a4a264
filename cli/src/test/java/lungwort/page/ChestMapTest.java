package lungwort.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import org.junit.jupiter.api.Test;

class ChestMapTest {
    /** A site without a point on the drawing could be listened at, but not led to. */
    @Test
    void everySiteHasItsPointOnTheDrawing() throws IOException {
        try (InputStream in = getClass().getResourceAsStream("/lungwort/page/chest-outlines.json")) {
            String map = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
            assertThat(Sites.catalogue())
                    .extracting(Site::id)
                    .allSatisfy(id -> assertThat(map).containsPattern("\"" + id + "\": \\[\\d+, \\d+\\]"));
        }
    }
}
