package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lungwort.score.Recipe;
import org.junit.jupiter.api.Test;

class NamesInRecipesTest {
    /** A recipe is checked against the names that datasets/README.md gives; every name that the model gives must be among them. */
    @Test
    void everyPooledAnswerAndLogitCanBeNamedInARecipe() {
        List<String> names = Stream.concat(
                        IntStream.range(0, PoolFeatures.POOLED).mapToObj(PoolFeatures::name),
                        PoolFeatures.NET_NAMES.stream())
                .toList();
        String learners = "\"learners\": [{\"kind\": \"linear-softmax\"}]}";
        String text = """
                {"segment": {%1$s, "context": {%1$s, "window": {%1$s, "bursts": {%1$s, "takes": {%1$s,
                 "net": {"nets": 1, "epochs": 1, "learningRate": 0.006},
                 "recording": {"features": [%2$s], %1$s}
                """.formatted(learners, "\"" + String.join("\", \"", names) + "\"");
        assertThat(Recipe.parse(text, "r.json").model().recording().features()).isEqualTo(names);
    }

    /** Each fact by its pieces: {@code net.continuous.most} stands there as {@code net.KIND.WHAT} and the words for both. */
    @Test
    void everyFactThatARecipeCanNameStandsInTheDocument() throws IOException {
        String document = Files.readString(Path.of("../datasets/README.md"));
        String facts =
                document.substring(document.indexOf("The facts of a stretch"), document.indexOf("| `kind` of learner"));
        List<String> words = Pattern.compile("[^A-Za-z]+").splitAsStream(facts).toList();
        assertThat(Stream.concat(EventModel.names(true).stream(), SegmentFacts.NAMES.stream())
                        .flatMap(name -> Arrays.stream(name.split("\\.")))
                        .map(piece -> piece.replaceAll("[-0-9]", ""))
                        .filter(piece -> !piece.isEmpty()))
                .allSatisfy(piece -> assertThat(words).contains(piece));
    }
}
