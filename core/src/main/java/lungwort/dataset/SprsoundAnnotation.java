package lungwort.dataset;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lungwort.BadInput;

/** One annotation file of SPRSound: {@code {"record_annotation": .., "event_annotation": [{"start", "end", "type"}, ..]}}, times in ms. */
record SprsoundAnnotation(RecordingLabel label, List<AnnotatedEvent> events) {
    /** What is said twice, or after the end, is not this release's. */
    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private static final double MS_PER_SECOND = 1000.0;

    private static final Map<String, EventLabel> EVENTS = Map.of(
            "normal", EventLabel.NORMAL,
            "rhonchi", EventLabel.RHONCHUS,
            "wheeze", EventLabel.WHEEZE,
            "stridor", EventLabel.STRIDOR,
            "coarse crackle", EventLabel.COARSE_CRACKLE,
            "fine crackle", EventLabel.FINE_CRACKLE,
            "wheeze+crackle", EventLabel.WHEEZE_AND_CRACKLE,
            "wheeze & crackle", EventLabel.WHEEZE_AND_CRACKLE);

    private static final Map<String, RecordingLabel> RECORDINGS = Map.of(
            "normal", RecordingLabel.NORMAL,
            "cas", RecordingLabel.CAS,
            "das", RecordingLabel.DAS,
            "cas & das", RecordingLabel.CAS_AND_DAS,
            "poor quality", RecordingLabel.POOR_QUALITY);

    static SprsoundAnnotation read(Path file) {
        JsonNode root = parse(file);
        RecordingLabel label = recordingLabel(file, root);
        JsonNode list = root.path("event_annotation");
        if (!list.isArray()) {
            throw BadInput.of("%s: 'event_annotation' is not a list; unpack the download again.", file);
        }
        List<AnnotatedEvent> events = new ArrayList<>();
        for (JsonNode item : list) {
            events.add(event(file, events.size() + 1, item));
        }
        return new SprsoundAnnotation(label, List.copyOf(events));
    }

    /** The files say {@code record_annotation}; the database's own page also shows {@code recording_annotation}. */
    private static RecordingLabel recordingLabel(Path file, JsonNode root) {
        String field = root.has("recording_annotation") ? "recording_annotation" : "record_annotation";
        return lookUp(RECORDINGS, root.path(field).asText(""), file, field);
    }

    private static JsonNode parse(Path file) {
        try {
            return JSON.readTree(Folders.bytes(file));
        } catch (JsonProcessingException e) {
            throw BadInput.because(
                    e,
                    "%s: it is not valid JSON, or says something twice (line %d); unpack the download again.",
                    file,
                    e.getLocation() == null ? 1 : e.getLocation().getLineNr());
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", file, e.getMessage());
        }
    }

    private static AnnotatedEvent event(Path file, int number, JsonNode item) {
        String place = file + ", event " + number;
        EventLabel label = lookUp(EVENTS, item.path("type").asText(""), place, "type");
        return EventChecks.event(
                place,
                milliseconds(place, item, "start") / MS_PER_SECOND,
                milliseconds(place, item, "end") / MS_PER_SECOND,
                label);
    }

    /** Some releases write numbers, some write them as strings. */
    private static double milliseconds(String place, JsonNode item, String field) {
        try {
            return Double.parseDouble(item.path(field).asText("").strip());
        } catch (NumberFormatException e) {
            throw BadInput.because(
                    e,
                    "%s: '%s' is not a time in milliseconds but '%s'; correct it or unpack the download again.",
                    place,
                    field,
                    item.path(field).asText(""));
        }
    }

    private static <T> T lookUp(Map<String, T> labels, String word, Object place, String field) {
        T found = labels.get(word.strip().toLowerCase(Locale.ROOT));
        if (word.isBlank()) {
            throw BadInput.of("%s: '%s' is missing or empty; unpack the download again.", place, field);
        }
        if (found == null) {
            throw BadInput.of(
                    "%s: the label '%s' of '%s' is unknown; known are %s.",
                    place,
                    word,
                    field,
                    String.join(", ", labels.keySet().stream().sorted().toList()));
        }
        return found;
    }
}
