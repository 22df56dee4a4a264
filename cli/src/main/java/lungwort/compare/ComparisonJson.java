package lungwort.compare;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import lungwort.json.Json;

/** Comparisons as JSON, as {@code compare --json} prints them. */
public final class ComparisonJson {
    private ComparisonJson() {}

    /** Keys: {@code relation, first, second, differences[..], notComparable[..], findings[..], caution}; numbers in the unit beside them. */
    public static ObjectNode toJson(Comparison c) {
        ObjectNode node = Json.object();
        node.put("relation", c.relation().id());
        node.set("first", take(c.first()));
        node.set("second", take(c.second()));
        ArrayNode differences = node.putArray("differences");
        for (Difference d : c.differences()) {
            ObjectNode one = differences
                    .addObject()
                    .put("measure", d.measure().id())
                    .put("unit", d.measure().unit());
            Json.put(one, "first", d.first());
            Json.put(one, "second", d.second());
            Json.put(one, "difference", d.difference());
            limit(one, d.limit());
            one.put("exceeds", d.exceeds());
        }
        texts(node.putArray("notComparable"), c.notComparable());
        texts(node.putArray("findings"), c.findings());
        node.put("caution", Comparison.CAUTION);
        return node;
    }

    /** One entry for each kind of extra sound. */
    public static ArrayNode toJson(List<Clearing> clearings) {
        ArrayNode array = Json.array();
        for (Clearing c : clearings) {
            ObjectNode one = array.addObject()
                    .put("kind", c.continuous() ? "continuous" : "discontinuous")
                    .put(
                            "state",
                            c.state().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
            Json.put(one, "before", c.before() == null ? Double.NaN : c.before());
            Json.put(one, "after", c.after() == null ? Double.NaN : c.after());
            one.put("unit", c.continuous() ? "%" : "crackles in each breath").put("words", c.words());
        }
        return array;
    }

    /** One entry for each measure. */
    public static ArrayNode usual(List<Usual> usual) {
        ArrayNode array = Json.array();
        for (Usual u : usual) {
            ObjectNode one = array.addObject()
                    .put("measure", u.measure().id())
                    .put("words", u.measure().words())
                    .put("unit", u.measure().unit())
                    .put("decimals", u.measure().decimals());
            Json.put(one, "today", u.today());
            Json.put(one, "median", u.median());
            Json.put(one, "lowest", u.lowest());
            Json.put(one, "highest", u.highest());
            one.put("takes", u.takes());
            limit(one, u.limit());
            one.put("unusual", u.unusual());
        }
        return array;
    }

    private static void limit(ObjectNode node, Repeatability.@org.jspecify.annotations.Nullable Limit limit) {
        if (limit == null) {
            node.putNull("repeatability");
        } else {
            Json.put(node, "repeatability", limit.difference());
        }
    }

    private static ObjectNode take(TakeMeasures take) {
        ObjectNode node = Json.object();
        node.put("file", take.name());
        node.put("suggestion", take.suggestion().id());
        node.put("usable", take.usable());
        ObjectNode values = node.putObject("values");
        take.values().forEach((measure, value) -> Json.put(values, measure.id(), value));
        ArrayNode spectrum = node.putArray("spectrum");
        for (int i = 0; i < take.spectrum().centresHz().size(); i++) {
            ObjectNode band = spectrum.addObject();
            Json.put(band, "hz", take.spectrum().centresHz().get(i));
            Json.put(band, "db", take.spectrum().levelsDb().get(i));
        }
        return node;
    }

    private static void texts(ArrayNode array, List<String> texts) {
        texts.forEach(array::add);
    }
}
