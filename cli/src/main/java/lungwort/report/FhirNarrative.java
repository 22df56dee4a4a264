package lungwort.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import lungwort.json.Json;

/**
 * What a resource holds, in words, for whoever sees its text alone. Made of the finished resource and of nothing else, so that it can neither claim more nor tell what was left out.
 *
 * <p>FHIR R4, <a href="https://hl7.org/fhir/R4/narrative.html">Narrative</a>: status {@code generated} means that all of it comes from the resource's elements; the div holds basic XHTML
 * without active content (txt-1, txt-2). That a resource should have one is dom-6, a best practice.
 */
final class FhirNarrative {
    /** Said in a resource whose sound cannot be shown in words. */
    static final String NO_SOUND = "The sound is in the resource, not in this text.";

    private static final String NAMESPACE = "http://www.w3.org/1999/xhtml";

    private FhirNarrative() {}

    /** The resource with its narrative, which takes the place of an earlier one. */
    static ObjectNode told(ObjectNode resource) {
        ObjectNode told = Json.object();
        told.set("resourceType", resource.get("resourceType"));
        told.putObject("text").put("status", "generated").put("div", div(resource));
        told.setAll(resource);
        return told;
    }

    private static String div(ObjectNode resource) {
        Html html = new Html().start("div", "xmlns", NAMESPACE);
        lines(html, "p", headline(resource));
        String how = how(resource);
        if (!how.isEmpty()) {
            lines(html, "p", how);
        }
        if (!resource.path("component").isEmpty()) {
            html.start("ul");
            resource.path("component").forEach(c -> lines(html, "li", named(c)));
            html.end();
        }
        for (JsonNode note : resource.path("note")) {
            String words = note.path("text").asText();
            if (!words.equals(value(resource))) {
                lines(html, "p", words);
            }
        }
        if (resource.path("content").has("data")) {
            lines(html, "p", NO_SOUND);
        }
        return html.end().fragment().strip();
    }

    private static String headline(JsonNode resource) {
        return switch (resource.path("resourceType").asText()) {
            case "Patient" ->
                resource.has("name")
                        ? "%s (nickname), born in %s."
                                .formatted(
                                        resource.path("name")
                                                .path(0)
                                                .path("text")
                                                .asText(),
                                        resource.path("birthDate").asText())
                        : ReportContent.NO_NAME + ".";
            case "Device" ->
                "%s. %s."
                        .formatted(
                                resource.path("deviceName").path(0).path("name").asText(), text(resource.path("type")));
            case "Media" -> text(resource.path("modality")) + ".";
            default -> named(resource);
        };
    }

    /** Of an observation or a part of one: what, and its value, or why there is none. */
    private static String named(JsonNode node) {
        return node.has("component") && value(node).isEmpty()
                ? text(node.path("code")) + "."
                : "%s: %s".formatted(text(node.path("code")), value(node));
    }

    private static String value(JsonNode node) {
        if (node.has("valueQuantity")) {
            JsonNode quantity = node.get("valueQuantity");
            String atLeast = quantity.has("comparator") ? "at least " : "";
            return "%s%s %s"
                    .formatted(
                            atLeast,
                            quantity.path("value").asText(),
                            quantity.path("unit").asText());
        }
        if (node.has("valueBoolean")) {
            return node.get("valueBoolean").asBoolean() ? "yes" : "no";
        }
        if (node.has("valueCodeableConcept")) {
            return text(node.get("valueCodeableConcept"));
        }
        return node.has("valueString") ? node.get("valueString").asText() : text(node.path("dataAbsentReason"));
    }

    /** Where, by what means, when, by which version, and that nobody has checked it. */
    private static String how(JsonNode resource) {
        List<String> parts = new ArrayList<>();
        if (resource.path("status").asText().equals("preliminary")) {
            parts.add("preliminary");
        }
        String site = text(resource.path("bodySite"));
        String title = resource.path("content").path("title").asText();
        String method = text(resource.path("method"));
        // The place of a take begins with its site.
        add(parts, (title + method).startsWith(site) ? "" : site);
        add(parts, title);
        add(parts, method);
        add(parts, resource.path("effectiveDateTime").asText());
        add(parts, resource.path("createdDateTime").asText());
        resource.path("version").forEach(v -> add(parts, v.path("value").asText()));
        return ReportWords.capital(String.join("; ", parts)) + (parts.isEmpty() ? "" : ".");
    }

    private static void add(List<String> parts, String words) {
        if (!words.isEmpty()) {
            parts.add(words);
        }
    }

    private static String text(JsonNode concept) {
        return concept.path("text").asText();
    }

    private static void lines(Html html, String tag, String words) {
        html.start(tag);
        String[] lines = words.strip().split("\\R", -1);
        for (int i = 0; i < lines.length; i++) {
            if (i > 0) {
                html.empty("br");
            }
            html.text(lines[i]);
        }
        html.end();
    }
}
