package lungwort.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.List;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import org.junit.jupiter.api.Test;

class ChestDrawingTest {
    private final ChestOutlines views = ChestOutlines.read();

    /** Seen from the front the person's left is on the right, seen from the back it is on the left. */
    @Test
    void leftAndRightAreThePersonsOwn() {
        for (String height : List.of("upper", "middle", "lower")) {
            assertThat(x("front", "front-" + height + "-left")).isGreaterThan(x("front", "front-" + height + "-right"));
            assertThat(x("back", "back-" + height + "-left")).isLessThan(x("back", "back-" + height + "-right"));
        }
        assertThat(x("side-left", "side-lower-left") + x("side-right", "side-lower-right"))
                .as("one side is the other in a mirror")
                .isEqualTo(ChestOutlines.WIDTH);
    }

    private double x(String view, String site) {
        return views.view(view).point(Sites.of(site)).x;
    }

    @Test
    void everyPlaceLiesOnTheBodyOfItsView() {
        for (String id : List.of("back", "front", "side-left", "side-right")) {
            ChestOutlines.View view = views.view(id);
            Rectangle2D body = ChestOutlines.path(view.body()).getBounds2D();
            assertThat(Sites.catalogue().stream().filter(view::shows).toList())
                    .isNotEmpty()
                    .allSatisfy(site -> assertThat(body.contains(view.point(site)))
                            .as(site.id())
                            .isTrue());
        }
        assertThat(Sites.catalogue())
                .allSatisfy(site -> assertThat(List.of("back", "front", "side-left", "side-right"))
                        .filteredOn(id -> views.view(id).shows(site))
                        .as(site.id())
                        .hasSize(1));
    }

    @Test
    void onlyViewsWithAPlaceAreDrawn() {
        BufferedImage all = ChestDrawing.of(Sites.fullRound());
        BufferedImage back = ChestDrawing.of(List.of(Sites.of("back-lower-left"), Sites.of("back-lower-right")));

        assertThat(all.getWidth()).isEqualTo(4 * back.getWidth());
        assertThat(all.getHeight()).isEqualTo(back.getHeight());
    }

    /** A place stands out by its circle and number: without them these pixels are white skin. */
    @Test
    void everyPlaceIsMarked() {
        Site left = Sites.of("back-lower-left");
        Site right = Sites.of("back-lower-right");
        BufferedImage both = ChestDrawing.of(List.of(left, right));
        BufferedImage one = ChestDrawing.of(List.of(left));

        assertThat(dark(both)).isGreaterThan(dark(one) + 500);
    }

    private static long dark(BufferedImage image) {
        long dark = 0;
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                dark += image.getRaster().getSample(x, y, 0) < 128 ? 1 : 0;
            }
        }
        return dark;
    }
}
