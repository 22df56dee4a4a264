package lungwort.score;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import lungwort.BadInput;
import lungwort.classify.ModelSettings;

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
    private static final int MAX_BYTES = 1 << 20;

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
        } catch (CharacterCodingException e) {
            throw BadInput.because(e, "%s: it is not text in UTF-8, as a recipe is; name another file.", file);
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
        return RecipeText.parse(text, origin);
    }
}
