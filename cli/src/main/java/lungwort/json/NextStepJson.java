package lungwort.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import lungwort.BadInput;
import lungwort.guidance.Citation;
import lungwort.guidance.Missing;
import lungwort.guidance.News2;
import lungwort.guidance.NextStep;
import lungwort.guidance.Outcome;
import lungwort.guidance.Reason;
import org.jspecify.annotations.Nullable;

/** A next step as a JSON object and back: what was said stays what was said, also after the rules have changed. */
public final class NextStepJson {
    private NextStepJson() {}

    /** A next step. */
    public static ObjectNode toJson(NextStep step) {
        ObjectNode node = Json.object();
        node.put("outcome", step.outcome().id());
        node.put("words", step.outcome().words());
        node.put("meaning", step.outcome().meaning());
        ArrayNode reasons = node.putArray("reasons");
        step.reasons().forEach(r -> reasons.add(reason(r)));
        texts(node.putArray("actions"), step.actions());
        ArrayNode missing = node.putArray("missing");
        for (Missing m : step.missing()) {
            missing.addObject().put("id", m.id()).put("text", m.text()).put("needed", m.needed());
        }
        texts(node.putArray("wouldChange"), step.wouldChange());
        texts(node.putArray("cautions"), step.cautions());
        node.set("news2", news2(step.news2()));
        return node;
    }

    /** @throws BadInput if a field is missing or of the wrong type */
    public static NextStep fromJson(JsonNode node) {
        List<Reason> reasons = new ArrayList<>();
        Json.list(node, "reasons").forEach(r -> reasons.add(reason(r)));
        List<Missing> missing = new ArrayList<>();
        for (JsonNode m : Json.list(node, "missing")) {
            missing.add(new Missing(Json.text(m, "id"), Json.text(m, "text"), Json.bool(m, "needed")));
        }
        return new NextStep(
                outcome(Json.text(node, "outcome")),
                reasons,
                texts(Json.list(node, "actions")),
                missing,
                texts(Json.list(node, "wouldChange")),
                texts(Json.list(node, "cautions")),
                news2(node.get("news2")));
    }

    private static @Nullable ObjectNode news2(@Nullable News2 score) {
        if (score == null) {
            return null;
        }
        ObjectNode node = Json.object().put("total", score.total()).put("complete", score.complete());
        ArrayNode parts = node.putArray("parts");
        for (News2.Part part : score.parts()) {
            parts.addObject().put("name", part.name()).put("points", part.points());
        }
        texts(node.putArray("missing"), score.missing());
        return node.put("scale2", score.scale2());
    }

    private static @Nullable News2 news2(@Nullable JsonNode node) {
        if (node == null || node.isNull()) {
            return null;
        }
        List<News2.Part> parts = new ArrayList<>();
        for (JsonNode part : Json.list(node, "parts")) {
            parts.add(new News2.Part(Json.text(part, "name"), Json.integer(part, "points")));
        }
        return new News2(
                Json.integer(node, "total"), parts, texts(Json.list(node, "missing")), Json.bool(node, "scale2"));
    }

    private static ObjectNode reason(Reason reason) {
        ObjectNode node = Json.object();
        node.put("rule", reason.rule());
        node.put("outcome", reason.outcome().id());
        node.put("text", reason.text());
        node.put("limit", reason.limit());
        ArrayNode citations = node.putArray("citations");
        for (Citation c : reason.citations()) {
            citations.addObject().put("source", c.source()).put("mark", c.mark());
        }
        return node;
    }

    private static Reason reason(JsonNode node) {
        List<Citation> citations = new ArrayList<>();
        for (JsonNode c : Json.list(node, "citations")) {
            citations.add(new Citation(Json.text(c, "source"), Json.text(c, "mark")));
        }
        return new Reason(
                Json.text(node, "rule"),
                outcome(Json.text(node, "outcome")),
                Json.text(node, "text"),
                Json.text(node, "limit"),
                citations);
    }

    private static Outcome outcome(String id) {
        for (Outcome outcome : Outcome.values()) {
            if (outcome.id().equals(id)) {
                return outcome;
            }
        }
        throw new BadInput("no outcome is called \"%s\".".formatted(id));
    }

    private static void texts(ArrayNode array, List<String> texts) {
        texts.forEach(array::add);
    }

    private static List<String> texts(JsonNode array) {
        List<String> texts = new ArrayList<>();
        array.forEach(text -> texts.add(text.asText()));
        return texts;
    }
}
