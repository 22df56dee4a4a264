package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import lungwort.classify.LearnerSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Whoever writes a recipe has only datasets/README.md to go by. */
class RecipeDocumentTest {
    private static final Path DOCUMENT = Path.of("..", "datasets", "README.md");
    private static final Pattern SETTING =
            Pattern.compile("(?m)^\\| `([a-z-]+)`: [^|]+ \\| `(\\w+)` \\| ([0-9.]+) \\| ([0-9.]+ to [0-9.]+) \\|");

    private static String document() throws IOException {
        return Files.readString(DOCUMENT);
    }

    @ParameterizedTest
    @ValueSource(strings = {"boosted-trees", "forest", "linear-softmax", "perceptron", "svm"})
    void everySettingStandsThereWithItsDefaultAndItsRange(String kind) throws IOException {
        Set<String> written = new TreeSet<>();
        Matcher rows = SETTING.matcher(document());
        while (rows.find()) {
            if (rows.group(1).equals(kind)) {
                written.add(rows.group(2) + " " + rows.group(3) + " in " + rows.group(4));
            }
        }
        Set<String> there = new TreeSet<>();
        new LearnerSettings(kind, Map.of()).numbers().forEach((name, value) -> {
            LearnerRanges.Range range = LearnerRanges.range(name);
            there.add("%s %s in %s to %s"
                    .formatted(
                            name,
                            LearnerRanges.plain(value),
                            LearnerRanges.plain(range.least()),
                            LearnerRanges.plain(range.most())));
        });
        assertThat(written).isEqualTo(there);
    }

    @Test
    void theExampleIsARecipeAsItStands() throws IOException {
        Matcher example = Pattern.compile("(?m)^    (\\{\"name\": \"mine\"(?:.*\\n)+?)\\n")
                .matcher(document());
        assertThat(example.find()).isTrue();
        Recipe recipe = Recipe.parse(example.group(1), "the example");
        assertThat(recipe.outerFolds()).isEqualTo(5);
        assertThat(recipe.model().segment().features()).containsExactly("cepstrum.*.mean", "-cepstrum.0.*");
    }

    @Test
    void everyKeyStandsThere() throws IOException {
        String text = document();
        assertThat(RecipeText.KEYS).allSatisfy(key -> assertThat(text).containsPattern("(?m)^\\| .*`" + key + "`"));
    }

    static List<Path> recipes() throws IOException {
        try (Stream<Path> files = Files.list(Path.of("..", "models", "recipes"))) {
            return files.sorted().toList();
        }
    }

    @ParameterizedTest
    @MethodSource("recipes")
    void theRecipesThatComeWithItAreRead(Path file) {
        assertThat(Recipe.read(file).name())
                .isEqualTo(file.getFileName().toString().replace(".json", ""));
    }
}
