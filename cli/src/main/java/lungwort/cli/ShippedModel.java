package lungwort.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import lungwort.BadInput;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;
import lungwort.score.Recipe;

/** The model, its recipe and its card, as they come with Lungwort. */
final class ShippedModel {
    private static final String FOLDER = "/lungwort/models/";
    private static final String MODEL = "lungwort.lungwort";
    private static final String RECIPE = "recipes/shipped.json";

    private ShippedModel() {}

    static SoundModel model() {
        return read(content());
    }

    /** The bytes of its file. */
    static byte[] content() {
        return bytes(MODEL);
    }

    /** The model in those bytes. */
    static SoundModel read(byte[] content) {
        return ModelFile.read(content, "the shipped model");
    }

    static Recipe recipe() {
        return Recipe.parse(new String(bytes(RECIPE), StandardCharsets.UTF_8), "the shipped recipe");
    }

    private static byte[] bytes(String name) {
        try (InputStream in = ShippedModel.class.getResourceAsStream(FOLDER + name)) {
            if (in == null) {
                throw new BadInput("This build of Lungwort holds no %s; build it whole, or name a file of your own."
                        .formatted(name));
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new BadInput("%s: it cannot be read from the program (%s).".formatted(name, e.getMessage()), e);
        }
    }
}
