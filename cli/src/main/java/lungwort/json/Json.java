package lungwort.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/** The one JSON mapper, and reading fields with a sentence where one is missing. */
public final class Json {
    /** Deeper nesting than this is refused: none of our documents needs a tenth of it. */
    private static final int MAX_DEPTH = 100;

    /** What the reader tells programmers, not people. */
    private static final Pattern INTERNALS =
            Pattern.compile(", from `[^`]*`|: enable `[^`]*` to allow| [(]start marker at .*");

    private static final ObjectMapper MAPPER = JsonMapper.builder()
            .enable(SerializationFeature.INDENT_OUTPUT)
            // Of two answers under one name, or behind the end, one would be passed over in silence.
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    static {
        MAPPER.getFactory()
                .setStreamReadConstraints(StreamReadConstraints.builder()
                        .maxNestingDepth(MAX_DEPTH)
                        .build());
    }

    private Json() {}

    /** An empty object. */
    public static ObjectNode object() {
        return MAPPER.createObjectNode();
    }

    /** An empty array. */
    public static ArrayNode array() {
        return MAPPER.createArrayNode();
    }

    /** Indented text, without a newline at its end. */
    public static String pretty(JsonNode node) {
        try {
            return MAPPER.writeValueAsString(node);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of plain values can always be written", e);
        }
    }

    /** The same on one line, as the diary stores it. */
    public static String compact(JsonNode node) {
        return node.toString();
    }

    /**
     * Reads one document.
     *
     * @param text the document
     * @param name what it is, for the sentence
     * @throws BadInput if it is not JSON; says the line and column
     */
    public static JsonNode parse(String text, String name) {
        try {
            // Some editors begin a file with a byte order mark.
            JsonNode node = MAPPER.readTree(text.startsWith("\uFEFF") ? text.substring(1) : text);
            if (node == null || node.isMissingNode()) {
                throw new BadInput("%s is empty; a JSON document was expected.".formatted(name));
            }
            return node;
        } catch (JsonProcessingException e) {
            var at = e.getLocation();
            throw new BadInput(
                    "%s is not readable JSON%s: %s."
                            .formatted(
                                    name,
                                    at == null
                                            ? ""
                                            : " at line %d, column %d".formatted(at.getLineNr(), at.getColumnNr()),
                                    INTERNALS.matcher(e.getOriginalMessage()).replaceAll("")),
                    e);
        }
    }

    /**
     * A misspelt field must not be passed over as if it had not been given.
     *
     * @param name what the node is, for the sentence
     * @throws BadInput if it is not an object, or holds a field of another name
     */
    public static void requireFields(JsonNode node, String name, Set<String> known) {
        if (!node.isObject()) {
            throw new BadInput("%s is %s, but an object in braces was expected.".formatted(name, node));
        }
        for (var field : node.properties()) {
            if (!known.contains(field.getKey())) {
                throw new BadInput("the field \"%s\" is not known; use %s."
                        .formatted(field.getKey(), String.join(", ", new TreeSet<>(known))));
            }
        }
    }

    /** The names of an object's fields. */
    public static Set<String> names(JsonNode node) {
        return node.properties().stream().map(Map.Entry::getKey).collect(Collectors.toSet());
    }

    /** @throws BadInput if the field is missing or null */
    public static JsonNode need(JsonNode node, String field) {
        JsonNode value = node.get(field);
        if (value == null || value.isNull()) {
            throw new BadInput("the field \"%s\" is missing.".formatted(field));
        }
        return value;
    }

    /** @throws BadInput if the field is missing or not text */
    public static String text(JsonNode node, String field) {
        JsonNode value = need(node, field);
        if (!value.isTextual()) {
            throw new BadInput("the field \"%s\" is %s, but text was expected.".formatted(field, value));
        }
        return value.asText();
    }

    /** Text, or null where the field is missing or null. */
    public static @Nullable String optionalText(JsonNode node, String field) {
        JsonNode value = node.get(field);
        return value == null || value.isNull() ? null : text(node, field);
    }

    /** A number; null stands for one that is not finite and reads as NaN. */
    public static double number(JsonNode node, String field) {
        JsonNode value = node.get(field);
        if (value != null && value.isNull()) {
            return Double.NaN;
        }
        if (value == null || !value.isNumber()) {
            throw new BadInput("the field \"%s\" is %s, but a number was expected.".formatted(field, value));
        }
        return value.asDouble();
    }

    /** A number, or null where the field is missing or null. */
    public static @Nullable Double optionalNumber(JsonNode node, String field) {
        JsonNode value = node.get(field);
        return value == null || value.isNull() ? null : (Double) number(node, field);
    }

    /** @throws BadInput if the field is missing or not a whole number */
    public static int integer(JsonNode node, String field) {
        JsonNode value = need(node, field);
        if (!value.isInt()) {
            throw new BadInput("the field \"%s\" is %s, but a whole number was expected.".formatted(field, value));
        }
        return value.asInt();
    }

    /** @throws BadInput if the field is missing or not true or false */
    public static boolean bool(JsonNode node, String field) {
        JsonNode value = need(node, field);
        if (!value.isBoolean()) {
            throw new BadInput("the field \"%s\" is %s, but true or false was expected.".formatted(field, value));
        }
        return value.asBoolean();
    }

    /** @throws BadInput if the field is missing or not a list */
    public static JsonNode list(JsonNode node, String field) {
        JsonNode value = need(node, field);
        if (!value.isArray()) {
            throw new BadInput("the field \"%s\" is not a list.".formatted(field));
        }
        return value;
    }

    /** Sets a number; JSON has no NaN, so null stands for a number that is not finite. */
    public static void put(ObjectNode node, String field, double value) {
        if (Double.isFinite(value)) {
            node.put(field, value);
        } else {
            node.putNull(field);
        }
    }
}
