package lungwort.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import lungwort.dataset.DatabaseSummary;
import lungwort.json.Json;

/** Summaries of databases as JSON. */
final class DatasetJson {
    private DatasetJson() {}

    static ArrayNode array(List<DatabaseSummary> summaries) {
        ArrayNode array = Json.array();
        summaries.forEach(summary -> array.add(one(summary)));
        return array;
    }

    private static ObjectNode one(DatabaseSummary summary) {
        ObjectNode node = Json.object();
        node.put("database", summary.database().kind().title());
        node.put("folder", summary.database().folder().toString());
        ArrayNode parts = node.putArray("parts");
        summary.parts().forEach(part -> parts.add(part(part)));
        ObjectNode ages = node.putObject("ages");
        Json.put(ages, "youngestYears", summary.ages().youngestYears());
        Json.put(ages, "medianYears", summary.ages().medianYears());
        Json.put(ages, "oldestYears", summary.ages().oldestYears());
        ages.put("unknown", summary.ages().unknown());
        ArrayNode counts = node.putArray("counts");
        summary.counts()
                .forEach(count -> counts.addObject()
                        .put("part", count.part())
                        .put("what", count.what())
                        .put("found", count.found())
                        .put("expected", count.expected()));
        ArrayNode warnings = node.putArray("warnings");
        summary.database().warnings().forEach(warnings::add);
        return node;
    }

    private static ObjectNode part(DatabaseSummary.Part part) {
        ObjectNode node = Json.object();
        node.put("split", part.split().id());
        node.put("recordings", part.recordings());
        node.put("withAudio", part.withAudio());
        node.put("patients", part.patients());
        node.put("events", part.events());
        node.put("audioSeconds", part.audioSeconds());
        ObjectNode events = node.putObject("eventLabels");
        part.eventLabels().forEach((label, count) -> events.put(label.id(), count));
        ObjectNode recordings = node.putObject("recordingLabels");
        part.recordingLabels().forEach((label, count) -> recordings.put(label.id(), count));
        putAll(node.putObject("sites"), part.sites());
        putAll(node.putObject("devices"), part.devices());
        node.put("digest", part.digest());
        return node;
    }

    private static void putAll(ObjectNode node, Map<String, Integer> counts) {
        counts.forEach(node::put);
    }
}
