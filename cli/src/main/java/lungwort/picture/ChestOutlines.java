package lungwort.picture;

import com.fasterxml.jackson.databind.JsonNode;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lungwort.guidance.Site;
import lungwort.json.Json;

/** The drawing of the chest that page and paper share: four views, each with its outline, lines under the skin, and the places where one listens. */
final class ChestOutlines {
    /** Size of a view, in units of the drawing. */
    static final double WIDTH = 200;

    private static final String RESOURCE = "/lungwort/page/chest-outlines.json";
    private static final Pattern STEP = Pattern.compile("([MLC])([^MLC]*)");

    private final Map<String, View> views = new HashMap<>();

    private ChestOutlines() {}

    /**
     * One view.
     *
     * @param body outline, as an SVG path of absolute M, L and C alone
     * @param lines spine, shoulder blades, collarbones, lowest ribs; written as the outline is
     * @param mirrored whether all of it is seen from the other side
     * @param sites points by the id of the site, x and y in units of the drawing
     */
    record View(String body, List<String> lines, boolean mirrored, Map<String, double[]> sites) {
        /** Where a site lies; left and right are the person's own. */
        Point2D.Double point(Site site) {
            double[] xy = Objects.requireNonNull(sites.get(site.id()), site.id());
            return new Point2D.Double(mirrored ? WIDTH - xy[0] : xy[0], xy[1]);
        }

        boolean shows(Site site) {
            return sites.containsKey(site.id());
        }
    }

    /** Reads the drawing. */
    static ChestOutlines read() {
        try (InputStream in = ChestOutlines.class.getResourceAsStream(RESOURCE)) {
            byte[] content = Objects.requireNonNull(in, RESOURCE).readAllBytes();
            ChestOutlines read = new ChestOutlines();
            Json.parse(new String(content, StandardCharsets.UTF_8), RESOURCE)
                    .properties()
                    .forEach(view -> read.views.put(view.getKey(), view(view.getValue())));
            return read;
        } catch (IOException e) {
            throw new UncheckedIOException("a resource of the program cannot be read: " + RESOURCE, e);
        }
    }

    /** A view by its id: back, front, side-left or side-right. */
    View view(String id) {
        return Objects.requireNonNull(views.get(id), id);
    }

    private static View view(JsonNode node) {
        List<String> lines = new ArrayList<>();
        Json.list(node, "lines").forEach(line -> lines.add(line.asText()));
        Map<String, double[]> sites = new HashMap<>();
        Json.need(node, "sites")
                .properties()
                .forEach(site -> sites.put(site.getKey(), new double[] {
                    site.getValue().get(0).asDouble(), site.getValue().get(1).asDouble()
                }));
        return new View(Json.text(node, "body"), lines, Json.bool(node, "mirrored"), sites);
    }

    /** The shape of a path of the drawing. */
    static Path2D path(String steps) {
        Path2D.Double path = new Path2D.Double();
        Matcher step = STEP.matcher(steps);
        while (step.find()) {
            double[] at = Pattern.compile("\\s+")
                    .splitAsStream(step.group(2).strip())
                    .mapToDouble(Double::parseDouble)
                    .toArray();
            switch (step.group(1)) {
                case "M" -> path.moveTo(at[0], at[1]);
                case "L" -> path.lineTo(at[0], at[1]);
                default -> path.curveTo(at[0], at[1], at[2], at[3], at[4], at[5]);
            }
        }
        return path;
    }
}
