package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;

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
}
