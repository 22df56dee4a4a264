package lungwort.score;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import lungwort.dataset.DatabaseKind;

/**
 * A score that others published, to stand beside ours; the data file {@code published.json} says how each was seen.
 *
 * @param database which database
 * @param task as in {@link ScoreReport#tasks()}
 * @param score the task's one number, in [0, 1]
 * @param what method and year
 * @param seen {@code second-hand} if it is from a later paper's table
 */
public record PublishedFigure(DatabaseKind database, String task, double score, String what, String seen) {
    private static final String FILE = "/lungwort/score/published.json";

    /** All that are known for a database's tasks, task by task, best first. */
    public static List<PublishedFigure> of(DatabaseKind database) {
        return all().stream()
                .filter(f -> f.database() == database)
                .sorted(Comparator.comparing(PublishedFigure::task)
                        .thenComparing(PublishedFigure::score, Comparator.reverseOrder()))
                .toList();
    }

    private static List<PublishedFigure> all() {
        try (InputStream in = PublishedFigure.class.getResourceAsStream(FILE)) {
            List<PublishedFigure> figures = new ArrayList<>();
            for (JsonNode node : new ObjectMapper()
                    .readTree(Objects.requireNonNull(in, FILE))
                    .path("figures")) {
                figures.add(new PublishedFigure(
                        DatabaseKind.valueOf(node.path("database").asText()),
                        node.path("task").asText(),
                        node.path("score").asDouble(),
                        node.path("what").asText(),
                        node.path("seen").asText()));
            }
            return List.copyOf(figures);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
