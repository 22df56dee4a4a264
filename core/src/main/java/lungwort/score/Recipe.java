package lungwort.score;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import lungwort.BadInput;
import lungwort.classify.BlendSettings;
import lungwort.classify.LearnerSettings;
import lungwort.classify.ModelSettings;
import lungwort.classify.NetSettings;
import lungwort.dataset.DatabaseKind;

/**
 * A recipe: everything that fixes a model and its figures, so that they can be made again.
 *
 * @param name short name
 * @param about what it is for, in a sentence or two
 * @param outerFolds patient folds of the cross-validation that reports figures
 * @param foldSeed of the order in which patients are dealt to folds
 * @param alteredEvery of every so many recordings one is also learnt from altered as other devices and rooms alter sound; 0 for none
 * @param bothDatabases true if SPRSound and ICBHI are learnt from together: ICBHI by its breath cycles as windows only, since a cycle is no sound event
 * @param model what is trained
 * @param text the recipe as it was written
 */
public record Recipe(
        String name,
        String about,
        int outerFolds,
        long foldSeed,
        int alteredEvery,
        boolean bothDatabases,
        ModelSettings model,
        String text) {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final int MAX_BYTES = 1 << 20;
    private static final Set<String> KEYS = Set.of(
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
            "bursts",
            "net",
            "recording",
            "events",
            "takes");

    /**
     * Reads a recipe file.
     *
     * @throws BadInput if it is not there, is not JSON, or asks for something unknown
     */
    public static Recipe read(Path file) {
        // A device tells no size, so no more is read than a recipe can have.
        try (InputStream in = Files.newInputStream(file)) {
            byte[] content = in.readNBytes(MAX_BYTES + 1);
            if (content.length > MAX_BYTES) {
                throw BadInput.of("%s: it is too large for a recipe.", file);
            }
            return parse(
                    StandardCharsets.UTF_8
                            .newDecoder()
                            .decode(ByteBuffer.wrap(content))
                            .toString(),
                    file.toString());
        } catch (NoSuchFileException e) {
            throw BadInput.because(
                    e, "%s: there is no such recipe; see models/recipes for those that come with Lungwort.", file);
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", file, e.getMessage());
        }
    }

    /**
     * Reads a recipe from text.
     *
     * @param origin for messages
     * @throws BadInput as {@link #read}
     */
    public static Recipe parse(String text, String origin) {
        try {
            JsonNode root = JSON.readTree(text);
            requireKeys(root, KEYS);
            ModelSettings model = new ModelSettings(
                    root.path("seed").asLong(1),
                    root.path("innerFolds").asInt(5),
                    blend(root, "segment"),
                    blend(root, "context"),
                    blend(root, "window"),
                    root.has("bursts") ? blend(root, "bursts") : null,
                    root.has("net") ? net(root.path("net")) : null,
                    blend(root, "recording"),
                    root.has("events") ? blend(root, "events") : null,
                    blend(root, "takes"));
            int outer = root.path("outerFolds").asInt(5);
            if (outer < 2 || outer > 50) {
                throw BadInput.of("The recipe asks for %d outer folds; use 2 to 50.", outer);
            }
            return new Recipe(
                    root.path("name").asText("unnamed"),
                    root.path("about").asText(""),
                    outer,
                    root.path("foldSeed").asLong(0),
                    root.path("alteredEvery").asInt(0),
                    bothDatabases(root.path("databases")),
                    model,
                    text);
        } catch (JsonProcessingException e) {
            throw BadInput.because(
                    e,
                    "%s: it is not JSON (line %d); correct it there.",
                    origin,
                    e.getLocation() == null ? 0 : e.getLocation().getLineNr());
        } catch (BadInput e) {
            throw new BadInput(origin + ": " + e.getMessage(), e);
        }
    }

    /** One database, the one that is asked for, where the recipe names none. */
    private static boolean bothDatabases(JsonNode named) {
        if (named.isMissingNode()) {
            return false;
        }
        Set<String> names = new TreeSet<>();
        named.forEach(n -> names.add(n.asText()));
        Set<String> all = new TreeSet<>();
        Arrays.stream(DatabaseKind.values()).forEach(kind -> all.add(kind.title()));
        if (!names.equals(all)) {
            throw BadInput.of(
                    "The recipe's databases are %s; name both (%s), or leave them out for one at a time.",
                    names, String.join(", ", all));
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
        requireKeys(node, Set.of("features", "learners"));
        List<String> features = new ArrayList<>();
        node.path("features").forEach(f -> features.add(f.asText()));
        List<LearnerSettings> learners = new ArrayList<>();
        node.path("learners").forEach(l -> learners.add(learner(l)));
        return new BlendSettings(features, learners);
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
        return new LearnerSettings(node.path("kind").asText("none"), numbers);
    }
}
