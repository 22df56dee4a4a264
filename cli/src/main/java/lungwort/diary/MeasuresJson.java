package lungwort.diary;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import lungwort.json.Json;

/** Measures as JSON and back; null stands for not measured. */
public final class MeasuresJson {
    private MeasuresJson() {}

    /** Keys: {@code wheezeShare, cracklesPerBreath, crackles, dominantHz, ratePerMinute}. */
    public static ObjectNode toJson(Measures measures) {
        ObjectNode node = Json.object();
        Json.put(node, "wheezeShare", measures.wheezeShare());
        node.put("cracklesPerBreath", measures.cracklesPerBreath());
        node.put("crackles", measures.crackles());
        node.put("dominantHz", measures.dominantHz());
        node.put("ratePerMinute", measures.ratePerMinute());
        return node;
    }

    /** @throws lungwort.BadInput if a field is of the wrong type */
    public static Measures fromJson(JsonNode node) {
        return new Measures(
                Json.number(node, "wheezeShare"),
                Json.optionalNumber(node, "cracklesPerBreath"),
                Json.integer(node, "crackles"),
                Json.optionalNumber(node, "dominantHz"),
                Json.optionalNumber(node, "ratePerMinute"));
    }
}
