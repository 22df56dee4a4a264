package lungwort.compare;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.Map;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;

/**
 * How far two takes of the same thing lie apart: measured, not chosen. The limit of a measure is the difference that 95 in 100 pairs stay within (the repeatability limit of
 * ISO 5725, here as the pairs' own 95th percentile, each patient weighing the same, because the differences are not normally distributed). The shipped figures are in
 * {@code repeatability.json}, with the command that makes them.
 *
 * @param made the command that made the figures, the database and its digest
 * @param sameSite two recordings of one site of one child, with the same label
 * @param leftRight the same height on both sides of one child, both labelled normal
 */
public record Repeatability(String made, Map<Measure, Limit> sameSite, Map<Measure, Limit> leftRight) {
    /**
     * The limit of one measure.
     *
     * @param difference that 95 in 100 pairs stay within, in the measure's unit
     * @param withinPersonDeviation within-person standard deviation by Bland and Altman (BMJ 1996): root of the mean of d^2 / 2
     * @param pairs number of pairs
     * @param patients number of patients they come from
     */
    public record Limit(double difference, double withinPersonDeviation, int pairs, int patients) {}

    public Repeatability {
        sameSite = Measure.copy(sameSite);
        leftRight = Measure.copy(leftRight);
    }

    /** The shipped figures. */
    public static Repeatability shipped() {
        try (InputStream in = Repeatability.class.getResourceAsStream("repeatability.json")) {
            if (in == null) {
                throw new IllegalStateException("repeatability.json is missing from the jar");
            }
            return read(Json.parse(new String(in.readAllBytes(), StandardCharsets.UTF_8), "repeatability.json"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Repeatability read(JsonNode node) {
        return new Repeatability(
                Json.text(node, "made"), limits(Json.need(node, "sameSite")), limits(Json.need(node, "leftRight")));
    }

    private static Map<Measure, Limit> limits(JsonNode node) {
        Map<Measure, Limit> limits = new EnumMap<>(Measure.class);
        node.fields().forEachRemaining(entry -> {
            JsonNode limit = entry.getValue();
            limits.put(
                    Measure.ofId(entry.getKey()),
                    new Limit(
                            Json.number(limit, "difference"),
                            Json.number(limit, "withinPersonDeviation"),
                            Json.integer(limit, "pairs"),
                            Json.integer(limit, "patients")));
        });
        return limits;
    }

    /** The limit that belongs to a relation; null where none was measured (upper against lower: no database here has both). */
    public @Nullable Limit limit(Measure measure, Relation relation) {
        return switch (relation) {
            case BEFORE_AFTER, EARLIER_LATER, FIRST_SECOND -> sameSite.get(measure);
            case LEFT_RIGHT -> leftRight.get(measure);
            case UPPER_LOWER -> null;
        };
    }
}
