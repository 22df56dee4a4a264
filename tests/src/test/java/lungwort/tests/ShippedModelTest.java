package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;
import lungwort.score.Recipe;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The model that Lungwort ships fits this version's catalogue, says where it comes from, and is small. */
class ShippedModelTest {
    private static final int MOST_BYTES = 5 << 20;

    private static byte[] bytes(String name) throws IOException {
        try (InputStream in = ShippedModelTest.class.getResourceAsStream("/lungwort/models/" + name)) {
            assertThat(in).as(name).isNotNull();
            return in.readAllBytes();
        }
    }

    @Test
    void isReadAndNamesItsRecipeAndItsTrainingData() throws IOException {
        byte[] file = bytes("lungwort.lungwort");
        assertThat(file).hasSizeLessThan(MOST_BYTES);
        SoundModel model = ModelFile.read(file, "shipped");
        String recipe = new String(bytes("recipes/shipped.json"), StandardCharsets.UTF_8);
        assertThat(model.facts())
                .containsEntry("recipe", "shipped")
                .containsEntry("recipeText", recipe)
                .containsEntry("trainingRecordings", "1949")
                .containsEntry("trainingEvents", "6656")
                .containsEntry("trainingPatients", "251")
                .hasEntrySatisfying(
                        "trainingDataDigest", digest -> assertThat(digest).matches("[0-9a-f]{64}"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"shipped", "quick", "cepstral-svm", "low-level-boosted", "both-databases"})
    void itsRecipesCanBeFollowed(String name) throws IOException {
        Recipe recipe = Recipe.parse(new String(bytes("recipes/" + name + ".json"), StandardCharsets.UTF_8), name);
        assertThat(recipe.name()).isEqualTo(name);
        assertThat(recipe.about()).isNotBlank();
    }
}
