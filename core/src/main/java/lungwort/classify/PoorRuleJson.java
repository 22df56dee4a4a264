package lungwort.classify;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import lungwort.BadInput;
import lungwort.quality.QualityMeasures;

/** {@link PoorRule} in a model's manifest. */
final class PoorRuleJson {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final List<String> TOGETHER = List.of("measured", "learnt");

    private PoorRuleJson() {}

    static ObjectNode of(PoorRule rule) {
        ObjectNode node = JSON.createObjectNode();
        node.set("measures", of(rule.measures(), QualityMeasures.relativeNames()));
        node.set("together", of(rule.together(), TOGETHER));
        node.put("measuredFrom", rule.measuredFrom());
        node.put("togetherFrom", rule.togetherFrom());
        return node;
    }

    private static ObjectNode of(RidgeLogistic fit, List<String> names) {
        ObjectNode node = JSON.createObjectNode();
        node.put("offset", fit.offset());
        for (int k = 0; k < names.size(); k++) {
            node.withArray("/columns")
                    .addObject()
                    .put("name", names.get(k))
                    .put("mean", fit.mean()[k])
                    .put("scale", fit.scale()[k])
                    .put("weight", fit.weights()[k]);
        }
        return node;
    }

    /** @throws BadInput if it was made for other quality measures or holds numbers that are none */
    static PoorRule read(JsonNode node) {
        return new PoorRule(
                read(node.path("measures"), QualityMeasures.relativeNames()),
                read(node.path("together"), TOGETHER),
                number(node, "measuredFrom"),
                number(node, "togetherFrom"));
    }

    private static RidgeLogistic read(JsonNode node, List<String> names) {
        JsonNode columns = node.path("columns");
        List<String> found = new ArrayList<>();
        columns.forEach(column -> found.add(column.path("name").asText("")));
        if (!found.equals(names)) {
            throw new BadInput(
                    "It was made for other quality measures than this version's; take one that was made for this version, or train it again.");
        }
        return new RidgeLogistic(
                numbers(columns, "mean"),
                numbers(columns, "scale"),
                numbers(columns, "weight"),
                number(node, "offset"));
    }

    private static double[] numbers(JsonNode columns, String name) {
        double[] numbers = new double[columns.size()];
        for (int k = 0; k < numbers.length; k++) {
            numbers[k] = number(columns.get(k), name);
        }
        return numbers;
    }

    private static double number(JsonNode node, String name) {
        double value = node.path(name).asDouble(Double.NaN);
        if (!Double.isFinite(value)) {
            throw Numbers.damaged("its rule of poor quality has no number " + name);
        }
        return value;
    }
}
