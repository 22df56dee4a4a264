package lungwort.score;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.classify.BlendSettings;
import lungwort.classify.EventSettings;
import lungwort.classify.LearnerSettings;
import lungwort.classify.ModelSettings;
import lungwort.classify.NetSettings;
import lungwort.dataset.DatabaseKind;

/**
 * The text of a {@link Recipe}. What would have to be guessed is refused, never passed over: the figure would be
 * that of another recipe under this one's name.
 */
final class RecipeText {
    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .disable(JsonParser.Feature.INCLUDE_SOURCE_IN_LOCATION)
            .build();

    private static final String EVENTS = "events";
    private static final String EDGES = "edges";
    private static final String BURSTS = "bursts";
    private static final String NET = "net";
    private static final int MAX_NAME = 100;
    private static final int MAX_ALTERED_EVERY = 1000;

    static final Set<String> KEYS = Set.of(
            "name",
            "about",
            "seed",
            "innerFolds",
            "outerFolds",
            "foldSeed",
            "alteredEvery",
            "databases",
            "segment",
            "context",
            "window",
            BURSTS,
            NET,
            "recording",
            EVENTS,
            "takes");

    private RecipeText() {}

    /** @throws BadInput if it is not JSON, or asks for something unknown or impossible */
    static Recipe parse(String text, String origin) {
        try {
            JsonNode root = JSON.readTree(withoutMark(text));
            if (!root.isObject()) {
                throw BadInput.of("It is not a recipe, which is one JSON object (datasets/README.md says of what).");
            }
            requireKeys(root, KEYS);
            return new Recipe(
                    name(root),
                    words(root, "about", ""),
                    (int) whole(root, "outerFolds", 5, 2, 50),
                    whole(root, "foldSeed", 0, Long.MIN_VALUE, Long.MAX_VALUE),
                    (int) whole(root, "alteredEvery", 0, 0, MAX_ALTERED_EVERY),
                    bothDatabases(root.path("databases")),
                    model(root),
                    text);
        } catch (JsonProcessingException e) {
            throw BadInput.because(
                    e,
                    "%s: it is not JSON, or says something twice (line %d); correct it there.",
                    origin,
                    e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getLineNr()));
        } catch (BadInput e) {
            throw new BadInput(origin + ": " + e.getMessage(), e);
        }
    }

    /** Some editors begin a text with a mark of its byte order. */
    private static String withoutMark(String text) {
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }

    private static ModelSettings model(JsonNode root) {
        return new ModelSettings(
                whole(root, "seed", 1, Long.MIN_VALUE, Long.MAX_VALUE),
                (int) whole(root, "innerFolds", 5, Integer.MIN_VALUE, Integer.MAX_VALUE),
                blend(root, "segment"),
                blend(root, "context"),
                blend(root, "window"),
                root.has(BURSTS) ? blend(root, BURSTS) : null,
                root.has(NET) ? net(root.path(NET)) : null,
                blend(root, "recording"),
                root.has(EVENTS) ? events(root) : null,
                blend(root, "takes"));
    }

    private static String name(JsonNode root) {
        String name = words(root, "name", "unnamed");
        if (name.isBlank() || name.length() > MAX_NAME || name.chars().anyMatch(Character::isISOControl)) {
            throw BadInput.of("The recipe's name must be a line of text of at most %d characters.", MAX_NAME);
        }
        return name;
    }

    private static String words(JsonNode root, String key, String ifNone) {
        JsonNode node = root.path(key);
        if (!node.isMissingNode() && !node.isTextual()) {
            throw BadInput.of("The recipe's '%s' must be text in quotes, not %s.", key, node);
        }
        return node.asText(ifNone);
    }

    private static long whole(JsonNode root, String key, long ifNone, long least, long most) {
        JsonNode node = root.path(key);
        if (node.isMissingNode()) {
            return ifNone;
        }
        if (!node.isIntegralNumber() || !node.canConvertToLong()) {
            throw BadInput.of("The recipe's '%s' must be a whole number, not %s.", key, node);
        }
        long value = node.asLong();
        if (value < least || value > most) {
            throw BadInput.of("The recipe's '%s' is %d; use %d to %d.", key, value, least, most);
        }
        return value;
    }

    /** One database, the one that is asked for, where the recipe names none. */
    private static boolean bothDatabases(JsonNode named) {
        if (named.isMissingNode()) {
            return false;
        }
        Set<String> all = Arrays.stream(DatabaseKind.values())
                .map(DatabaseKind::title)
                .collect(Collectors.toCollection(TreeSet::new));
        if (!new TreeSet<>(texts(named, "databases")).equals(all)) {
            throw BadInput.of(
                    "The recipe's databases are %s; name both (%s), or leave them out for one at a time.",
                    named, String.join(", ", all));
        }
        return true;
    }

    private static void requireKeys(JsonNode node, Set<String> known) {
        node.fieldNames().forEachRemaining(key -> {
            if (!known.contains(key)) {
                throw BadInput.of(
                        "The recipe has a key '%s' that is not known; use only %s.",
                        key, String.join(", ", new TreeSet<>(known)));
            }
        });
    }

    private static BlendSettings blend(JsonNode root, String part) {
        JsonNode node = root.path(part);
        if (!node.isObject()) {
            throw BadInput.of("The recipe has no part '%s'.", part);
        }
        requireKeys(node, part.equals(EVENTS) ? Set.of("features", "learners", EDGES) : Set.of("features", "learners"));
        List<String> features = texts(node.path("features"), "features' of '" + part);
        RecipeFeatures.check(part, features, root.has(BURSTS), root.has(NET), node.has(EDGES));
        List<LearnerSettings> learners = new ArrayList<>();
        JsonNode list = node.path("learners");
        if (!list.isMissingNode() && !list.isArray()) {
            throw BadInput.of("The recipe's 'learners' of '%s' must be a list in [ ], not %s.", part, list);
        }
        list.forEach(l -> learners.add(learner(l)));
        return new BlendSettings(features, learners);
    }

    private static EventSettings events(JsonNode root) {
        BlendSettings sounds = blend(root, EVENTS);
        JsonNode edges = root.path(EVENTS).path(EDGES);
        if (!edges.isMissingNode() && !edges.isObject()) {
            throw BadInput.of("The recipe's 'edges' of 'events' must be one learner in { }, not %s.", edges);
        }
        return new EventSettings(sounds, edges.isMissingNode() ? null : learner(edges));
    }

    private static List<String> texts(JsonNode list, String key) {
        if (list.isMissingNode()) {
            return List.of();
        }
        List<String> texts = new ArrayList<>();
        for (JsonNode text : list) {
            texts.add(text.isTextual() ? text.asText() : "");
        }
        if (!list.isArray() || texts.contains("")) {
            throw BadInput.of("The recipe's '%s' must be a list of texts in [ ], not %s.", key, list);
        }
        return texts;
    }

    private static NetSettings net(JsonNode node) {
        if (!node.isObject()) {
            throw BadInput.of(
                    "The recipe's part 'net' must be an object with nets, epochs and learningRate, not %s.", node);
        }
        requireKeys(node, Set.of("nets", "epochs", "learningRate"));
        boolean whole = node.path("nets").isInt() && node.path("epochs").isInt();
        if (!whole || !node.path("learningRate").isNumber()) {
            throw BadInput.of(
                    "The recipe's part 'net' must give nets and epochs as whole numbers and learningRate as a number, not %s.",
                    node);
        }
        return new NetSettings(
                node.path("nets").asInt(),
                node.path("epochs").asInt(),
                node.path("learningRate").asDouble());
    }

    private static LearnerSettings learner(JsonNode node) {
        Map<String, Double> numbers = new TreeMap<>();
        node.fields().forEachRemaining(e -> {
            if (e.getKey().equals("kind")) {
                return;
            }
            if (!e.getValue().isNumber()) {
                throw BadInput.of("The recipe's '%s' must be a number, not %s.", e.getKey(), e.getValue());
            }
            numbers.put(e.getKey(), e.getValue().asDouble());
        });
        LearnerSettings learner = new LearnerSettings(node.path("kind").asText("none"), numbers);
        LearnerRanges.check(learner);
        return learner;
    }
}
