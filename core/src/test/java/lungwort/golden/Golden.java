package lungwort.golden;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;

/** A case of the golden vectors that the scripts in tests/golden compute, most with SciPy; its version stands in each file under {@code madeWith}. */
public record Golden(String file, JsonNode body) {
    /** All cases of a file, for parameterised tests. */
    public static Stream<Golden> cases(String file) {
        try (InputStream in = Golden.class.getResourceAsStream("/golden/" + file + ".json")) {
            JsonNode cases = new ObjectMapper()
                    .readTree(Objects.requireNonNull(in, file))
                    .get("cases");
            return StreamSupport.stream(cases.spliterator(), false).map(body -> new Golden(file, body));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public double[] array(String key) {
        return arrayOf(node(key));
    }

    public double[][] rows(String key) {
        return StreamSupport.stream(node(key).spliterator(), false)
                .map(Golden::arrayOf)
                .toArray(double[][]::new);
    }

    public double number(String key) {
        return node(key).asDouble();
    }

    public int whole(String key) {
        return node(key).asInt();
    }

    public String text(String key) {
        return node(key).asText();
    }

    public List<String> texts(String key) {
        return StreamSupport.stream(node(key).spliterator(), false)
                .map(JsonNode::asText)
                .toList();
    }

    private JsonNode node(String key) {
        return Objects.requireNonNull(body.get(key), key);
    }

    private static double[] arrayOf(JsonNode node) {
        double[] values = new double[node.size()];
        for (int i = 0; i < values.length; i++) {
            values[i] = node.get(i).asDouble();
        }
        return values;
    }

    @Override
    public String toString() {
        return file + ": " + body.get("name").asText();
    }
}
