package lungwort.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Point2D;
import java.awt.image.BufferedImage;
import java.util.List;
import lungwort.guidance.Site;

/** The chest from four sides with the places of a round numbered in their order, in black on white: a copying machine swallows what is grey. */
public final class ChestDrawing {
    /** Pixels for each unit of the drawing: at 45 mm a view some 400 dots an inch. */
    private static final int SCALE = 4;

    private static final int VIEW_WIDTH = 190;
    private static final int VIEW_HEIGHT = 246;
    private static final int LEFT_EDGE = 5;
    private static final int CAPTION_AT = 242;
    private static final int SIDES_AT = 224;
    private static final double SPOT_RADIUS = 8.5;

    /** The views, and their names for people, in the order in which one goes round. */
    private static final List<View> VIEWS = List.of(
            new View("back", "Back", "left", "right"),
            new View("side-left", "Left side", "", ""),
            new View("side-right", "Right side", "", ""),
            new View("front", "Front", "right", "left"));

    private record View(String id, String words, String onTheLeft, String onTheRight) {}

    private ChestDrawing() {}

    /**
     * Draws the views that show any of the places, side by side.
     *
     * @param sites in the order of the round; the first is number 1
     */
    public static BufferedImage of(List<Site> sites) {
        Pictures.requireFont();
        ChestOutlines drawn = ChestOutlines.read();
        List<View> views = VIEWS.stream()
                .filter(v -> sites.stream().anyMatch(drawn.view(v.id())::shows))
                .toList();
        BufferedImage image =
                new BufferedImage(views.size() * VIEW_WIDTH * SCALE, VIEW_HEIGHT * SCALE, BufferedImage.TYPE_BYTE_GRAY);
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setColor(Color.WHITE);
        g.fillRect(0, 0, image.getWidth(), image.getHeight());
        g.scale(SCALE, SCALE);
        for (int i = 0; i < views.size(); i++) {
            Graphics2D part = (Graphics2D) g.create();
            part.translate(i * VIEW_WIDTH - LEFT_EDGE, 0);
            draw(part, views.get(i), drawn.view(views.get(i).id()), sites);
            part.dispose();
        }
        g.dispose();
        return image;
    }

    private static void draw(Graphics2D g, View view, ChestOutlines.View drawn, List<Site> sites) {
        g.setColor(Color.BLACK);
        AffineTransform seen =
                drawn.mirrored() ? new AffineTransform(-1, 0, 0, 1, ChestOutlines.WIDTH, 0) : new AffineTransform();
        g.setStroke(new BasicStroke(1.4f));
        g.draw(ChestOutlines.path(drawn.body()).createTransformedShape(seen));
        g.setStroke(new BasicStroke(0.6f));
        drawn.lines().forEach(line -> g.draw(ChestOutlines.path(line).createTransformedShape(seen)));
        g.setStroke(new BasicStroke(1f));
        for (int i = 0; i < sites.size(); i++) {
            if (drawn.shows(sites.get(i))) {
                spot(g, drawn.point(sites.get(i)), Integer.toString(i + 1));
            }
        }
        g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 10));
        words(g, view.onTheLeft(), 28, SIDES_AT);
        words(g, view.onTheRight(), ChestOutlines.WIDTH - 28, SIDES_AT);
        g.setFont(new Font(Font.SANS_SERIF, Font.BOLD, 12));
        words(g, view.words(), ChestOutlines.WIDTH / 2, CAPTION_AT);
    }

    private static void spot(Graphics2D g, Point2D.Double at, String number) {
        Ellipse2D.Double circle =
                new Ellipse2D.Double(at.x - SPOT_RADIUS, at.y - SPOT_RADIUS, 2 * SPOT_RADIUS, 2 * SPOT_RADIUS);
        g.setColor(Color.WHITE);
        g.fill(circle);
        g.setColor(Color.BLACK);
        g.draw(circle);
        g.setFont(new Font(Font.SANS_SERIF, Font.BOLD, 10));
        words(g, number, at.x, at.y + 3.6);
    }

    /** Writes words around a middle. */
    private static void words(Graphics2D g, String words, double middle, double baseline) {
        FontMetrics metrics = g.getFontMetrics();
        g.drawString(words, (float) (middle - metrics.stringWidth(words) / 2.0), (float) baseline);
    }
}
