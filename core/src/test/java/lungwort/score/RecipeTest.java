package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import lungwort.BadInput;
import lungwort.classify.BlendSettings;
import lungwort.classify.EventSettings;
import lungwort.classify.LearnerSettings;
import lungwort.classify.NetSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RecipeTest {
    private static final String LEARNERS = "{\"learners\": [{\"kind\": \"linear-softmax\", \"ridge\": 3}]}";

    private static String recipe(String more) {
        return "{\"name\": \"r\", \"segment\": %s, \"context\": %s, \"window\": %s, \"recording\": %s, \"takes\": %s%s}"
                .formatted(LEARNERS, LEARNERS, LEARNERS, LEARNERS, LEARNERS, more);
    }

    @Test
    void readsWhatItSays() {
        Recipe r = Recipe.parse(recipe(", \"seed\": 7, \"innerFolds\": 4"), "r.json");
        assertThat(r.name()).isEqualTo("r");
        assertThat(r.model().seed()).isEqualTo(7);
        assertThat(r.model().folds()).isEqualTo(4);
        assertThat(r.model().segment().learners().get(0).numbers()).containsEntry("ridge", 3.0);
    }

    /** A device has no size and no end. */
    @Test
    void readsNoMoreThanARecipeCanHave() {
        Path endless = Path.of("/dev/zero");
        assumeTrue(Files.exists(endless), "this system has no /dev/zero");
        assertThatThrownBy(() -> Recipe.read(endless))
                .isInstanceOf(BadInput.class)
                .hasMessage("/dev/zero: it is too large for a recipe.");
    }

    @Test
    void namesBothDatabasesOrNone() {
        assertThat(Recipe.parse(recipe(""), "r.json").bothDatabases()).isFalse();
        assertThat(Recipe.parse(recipe(", \"databases\": [\"ICBHI 2017\", \"SPRSound\"]"), "r.json")
                        .bothDatabases())
                .isTrue();
        assertThatThrownBy(() -> Recipe.parse(recipe(", \"databases\": [\"SPRSound\"]"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("name both (ICBHI 2017, SPRSound)");
    }

    @Test
    void asksForANetOrNone() {
        assertThat(Recipe.parse(recipe(""), "r.json").model().net()).isNull();
        assertThat(Recipe.parse(recipe(", \"net\": {\"nets\": 2, \"epochs\": 16, \"learningRate\": 0.006}"), "r.json")
                        .model()
                        .net())
                .isEqualTo(new NetSettings(2, 16, 0.006));
    }

    private static final String NET = ", \"net\": {\"nets\": 2, \"epochs\": 16, \"learningRate\": 0.006}";

    @Test
    void asksForSingleSoundsOrNone() {
        assertThat(Recipe.parse(recipe(NET), "r.json").model().events()).isNull();
        String events =
                ", \"events\": {\"features\": [\"net.*\"], \"learners\": [{\"kind\": \"boosted-trees\", \"rounds\": 9}]}";
        assertThat(Recipe.parse(recipe(NET + events), "r.json").model().events())
                .isEqualTo(new EventSettings(
                        new BlendSettings(
                                List.of("net.*"), List.of(new LearnerSettings("boosted-trees", Map.of("rounds", 9.0)))),
                        null));
        String edges = ", \"edges\": {\"kind\": \"boosted-trees\", \"leaves\": 7}}";
        EventSettings moved = java.util.Objects.requireNonNull(Recipe.parse(
                        recipe(NET + events.substring(0, events.length() - 1) + edges), "r.json")
                .model()
                .events());
        assertThat(moved.edges()).isEqualTo(new LearnerSettings("boosted-trees", Map.of("leaves", 7.0)));
    }

    /** Single sounds are found by what a net says. */
    @Test
    void refusesImpossibleEvents() {
        assertThatThrownBy(() -> Recipe.parse(recipe(", \"events\": " + LEARNERS), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("r.json: ")
                .hasMessageContaining("'events' finds sounds by its net and has none");
        assertThatThrownBy(() -> Recipe.parse(recipe(NET + ", \"events\": true"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("r.json: ")
                .hasMessageContaining("no part 'events'");
        assertThatThrownBy(() -> Recipe.parse(recipe(NET + ", \"events\": {\"learners\": []}"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no learner");
        assertThatThrownBy(() -> Recipe.parse(recipe(NET + ", \"events\": {\"levels\": [1]}"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("levels");
    }

    /** Only boosted trees give numbers. */
    @Test
    void refusesImpossibleEdges() {
        String events = NET + ", \"events\": {\"learners\": [{\"kind\": \"forest\"}], \"edges\": ";
        assertThatThrownBy(() -> Recipe.parse(recipe(events + "{\"kind\": \"forest\"}}"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("r.json: ")
                .hasMessageContaining("'edges' are moved by boosted-trees only, not by a forest");
        assertThatThrownBy(() -> Recipe.parse(recipe(events + "{\"kind\": \"boosted-trees\", \"far\": 1}}"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("far");
        assertThatThrownBy(() -> Recipe.parse(recipe(events + "true}"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("learner");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "3; object",
                "{\"epochs\": 16, \"learningRate\": 0.006}; nets",
                "{\"nets\": 17, \"epochs\": 16, \"learningRate\": 0.006}; 1 to 16",
                "{\"nets\": 2, \"epochs\": 16}; learningRate",
                "{\"nets\": 2, \"epochs\": 1.5, \"learningRate\": 0.006}; whole number",
                "{\"nets\": 2, \"epochs\": 16, \"learningRate\": 0.006, \"layers\": 3}; layers",
                "{\"nets\": 2, \"epochs\": 0, \"learningRate\": 0.006}; 1 to 200",
                "{\"nets\": 2, \"epochs\": 201, \"learningRate\": 0.006}; 1 to 200",
                "{\"nets\": 2, \"epochs\": 16, \"learningRate\": 0}; above 0",
                "{\"nets\": 2, \"epochs\": 16, \"learningRate\": 1}; below 1"
            })
    void refusesAnImpossibleNet(String net, String words) {
        assertThatThrownBy(() -> Recipe.parse(recipe(", \"net\": " + net), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("r.json: ")
                .hasMessageContaining(words);
    }

    @Test
    void refusesWhatItDoesNotKnow() {
        assertThatThrownBy(() -> Recipe.parse(recipe(", \"colour\": 1"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("r.json: ")
                .hasMessageContaining("colour");
        assertThatThrownBy(() -> Recipe.parse(recipe("").replace("ridge", "fridge"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("fridge");
        assertThatThrownBy(() -> Recipe.parse(recipe("").replace("linear-softmax", "oracle"), "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("oracle");
        assertThatThrownBy(() -> Recipe.parse("{\"name\": \"r\"}", "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("segment");
        assertThatThrownBy(() -> Recipe.parse("{", "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("JSON");
        assertThatThrownBy(() -> Recipe.read(Path.of("no-such-recipe.json")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no such recipe");
    }

    /** What is not understood is not passed over: the figure would be that of another recipe under this one's name. */
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                ", \"seed\": \"seven\"; 'seed' must be a whole number, not \"seven\"",
                ", \"seed\": 1.5; 'seed' must be a whole number, not 1.5",
                ", \"outerFolds\": \"ten\"; 'outerFolds' must be a whole number",
                ", \"outerFolds\": 51; 'outerFolds' is 51; use 2 to 50",
                ", \"foldSeed\": null; 'foldSeed' must be a whole number, not null",
                ", \"alteredEvery\": -1; 'alteredEvery' is -1; use 0 to 1000",
                ", \"about\": 3; 'about' must be text in quotes, not 3",
                ", \"databases\": \"SPRSound\"; 'databases' must be a list of texts in [ ], not \"SPRSound\"",
                ", \"seed\": 1, \"seed\": 2; says something twice (line 1)",
            })
    void refusesWhatItWouldHaveToGuess(String more, String words) {
        refused(recipe(more), words);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                "segment; \"cepstrum.*\"; must be a list of texts in [ ], not \"cepstrum.*\"",
                "segment; [\"cepstrum.*\", 3]; must be a list of texts",
                "segment; [\"cepstrum.*\", \"mfcc.*\"]; part 'segment' names 'mfcc.*', which is no feature",
                "window; [\"-cepstrum.17.mean\"]; part 'window' names '-cepstrum.17.mean', which is no feature",
                "bursts; [\"recording.rate\"]; part 'bursts' names 'recording.rate', which is no feature",
                "recording; [\"cepstrum.01.mean\"]; part 'recording' names 'cepstrum.01.mean'",
                "recording; [\"pool.windows\", \"pool.windw.*\"]; part 'recording' names 'pool.windw.*'",
                "recording; [\"-pool.segment.poorQuality.mean\"]; part 'recording' names '-pool.segment.poorQuality.mean'",
                "recording; [\"*.p51\"]; part 'recording' names '*.p51'",
                "recording; [\"net.continuous\"]; part 'recording' names 'net.continuous'",
                "recording; [\"pool.bursts.*\"]; part 'recording' names 'pool.bursts.*'",
                "context; [\"net.in.mean\"]; part 'context' names 'net.in.mean', which is no feature that it sees",
                "context; [\"tones.*\"]; part 'context' names 'tones.*'",
                "context; [\"-tone.*\"]; part 'context' names '-tone.*'",
                "takes; [\"pool.*\"]; part 'takes' names 'pool.*'",
            })
    void refusesFeaturesThatAreNone(String part, String features, String words) {
        String wanted = LEARNERS.replace("{\"learners", "{\"features\": %s, \"learners".formatted(features));
        refused(
                part.equals("bursts")
                        ? recipe(", \"bursts\": " + wanted)
                        : recipe("")
                                .replace("\"%s\": %s".formatted(part, LEARNERS), "\"%s\": %s".formatted(part, wanted)),
                words);
    }

    /** What other stages say can be named where the recipe has these stages. */
    @Test
    void namesWhatOtherStagesSayWhereThereAreSuch() {
        String recording = "\"recording\": " + LEARNERS;
        String wanted = recording.replace(
                "{\"learners",
                "{\"features\": [\"pool.windows\", \"*.p75\", \"-pool.bursts.*\", \"net.*\", \"recording.duration\"], \"learners");
        String text = recipe(NET + ", \"bursts\": " + LEARNERS).replace(recording, wanted);
        assertThat(Recipe.parse(text, "r.json").model().recording().features()).hasSize(5);
        String context = "\"context\": " + LEARNERS;
        String facts = context.replace("{\"learners", "{\"features\": [\"net.*\"], \"learners");
        assertThat(Recipe.parse(recipe(NET).replace(context, facts), "r.json")
                        .model()
                        .context()
                        .features())
                .containsExactly("net.*");
    }

    private static String withNet(String context, String events) {
        return recipe(", \"net\": {\"nets\": 1, \"epochs\": 1, \"learningRate\": 0.006}, \"events\": {%s, %s"
                        .formatted(events, LEARNERS.substring(1)))
                .replace(
                        "\"context\": %s".formatted(LEARNERS),
                        "\"context\": {%s, %s".formatted(context, LEARNERS.substring(1)));
    }

    /** What a net tells, and what edges see, can be named where the recipe has them, and be left out where it does not. */
    @Test
    void factsOfStretchesCanBeNamedWhereTheyAreSeen() {
        String some = "\"features\": [\"tones.*\", \"net.poorQuality\"]";
        String every = "\"features\": [\"net.*.most\", \"-start.*\"]";
        Recipe recipe = Recipe.parse(withNet(some, every), "r.json");
        assertThat(recipe.model().context().features()).containsExactly("tones.*", "net.poorQuality");
        String edges = "\"edges\": {\"kind\": \"boosted-trees\"}, ";
        refused(withNet(some, "\"features\": [\"start.net.0\"]"), "part 'events' names 'start.net.0'");
        assertThat(Recipe.parse(withNet(some, edges + "\"features\": [\"start.net.0\"]"), "r.json")
                        .model()
                        .events())
                .isNotNull();
        refused(withNet(some, edges + "\"features\": [\"start.net.1\"]"), "part 'events' names 'start.net.1'");
        refused(withNet("\"features\": [\"net.worst\"]", every), "part 'context' names 'net.worst'");
        Recipe without = Recipe.parse(
                recipe("")
                        .replace(
                                "\"recording\": %s".formatted(LEARNERS),
                                "\"recording\": {\"features\": [\"-net.*\"], %s".formatted(LEARNERS.substring(1))),
                "r.json");
        assertThat(without.model().recording().features()).containsExactly("-net.*");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "linear-softmax; ridge; -3; a number from 0 to 1000000000",
                "linear-softmax; iterations; 0; a whole number from 1 to 10000",
                "forest; trees; 1e12; a whole number from 1 to 10000",
                "forest; trees; 2.5; a whole number",
                "forest; trees; 1e999; a whole number",
                "boosted-trees; rowShare; 0; a number from 0.000001 to 1.",
                "boosted-trees; learningRate; 1.5; a number from 0.000001 to 1.",
                "perceptron; hiddenDropout; 1; a number from 0 to 0.99",
                "svm; penalty; 0; a number from 0.000001 to 1000000.",
            })
    void refusesASettingThatNoLearnerCanHave(String kind, String setting, String value, String words) {
        refused(
                recipe("")
                        .replace(
                                "\"linear-softmax\", \"ridge\": 3",
                                "\"%s\", \"%s\": %s".formatted(kind, setting, value)),
                "sets '%s' of a %s to ".formatted(setting, kind),
                words);
    }

    private static void refused(String text, String... words) {
        assertThatThrownBy(() -> Recipe.parse(text, "r.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("r.json: ")
                .hasMessageContainingAll(words);
    }

    @Test
    void readsNothingBehindItsEndAndAMarkOfByteOrderBeforeIt() {
        refused(recipe("") + " {}", "it is not JSON");
        refused("[]", "It is not a recipe");
        refused(recipe("").replace("\"r\"", "\"two\\nlines\""), "name must be a line of text");
        assertThat(Recipe.parse("\uFEFF" + recipe(""), "r.json").name()).isEqualTo("r");
    }

    @Test
    void aFileThatIsNoTextIsSaidToBeNone(@TempDir Path folder) throws IOException {
        Path file = Files.write(folder.resolve("r.json"), new byte[] {(byte) 0xC3, 0x28});
        assertThatThrownBy(() -> Recipe.read(file))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("it is not text in UTF-8");
    }
}
