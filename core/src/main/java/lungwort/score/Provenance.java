package lungwort.score;

import java.util.List;
import lungwort.LungwortVersion;
import lungwort.Sha256;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import org.jspecify.annotations.Nullable;

/**
 * What figures were made of and with, so that they can be traced. It holds no time: the same command on the same machine writes the same bytes.
 *
 * @param version of Lungwort
 * @param java version of the Java machine
 * @param processor its architecture, since a sine may differ in the last digit from one to the other
 * @param scored the recordings that were scored
 * @param learntFromToo recordings of another database that a recipe learnt from beside them; null if there were none
 * @param answeredBy what answered
 * @param altered id of what was done to each recording before, {@code none} for nothing
 */
public record Provenance(
        String version,
        String java,
        String processor,
        Data scored,
        @Nullable Data learntFromToo,
        Source answeredBy,
        String altered) {

    /**
     * A set of recordings.
     *
     * @param annotations {@link Database#digest}: names, sizes and annotations
     * @param audio {@link Database#audioDigest}: every byte of the audio files
     */
    public record Data(String annotations, String audio) {
        static Data of(List<AnnotatedRecording> recordings) {
            return new Data(Database.digest(recordings), Database.audioDigest(recordings));
        }
    }

    /**
     * A model file or the text of a recipe.
     *
     * @param kind {@code model} or {@code recipe}
     * @param sha256 of the file's bytes
     */
    public record Source(String kind, String sha256) {}

    /**
     * Of a model's figures.
     *
     * @param scored with audio
     * @param modelFile the bytes of its file
     * @param altered what was done to each recording before
     * @throws lungwort.BadInput if audio cannot be read
     */
    public static Provenance ofModel(List<AnnotatedRecording> scored, byte[] modelFile, SoundChange altered) {
        return of(scored, List.of(), new Source("model", Sha256.hex(modelFile)), altered);
    }

    /**
     * Of a recipe's figures by cross-validation.
     *
     * @param scored with audio
     * @param learntFromToo recordings of another database, which every fold learnt from; empty for none
     * @throws lungwort.BadInput if audio cannot be read
     */
    public static Provenance ofRecipe(
            List<AnnotatedRecording> scored, List<AnnotatedRecording> learntFromToo, Recipe recipe) {
        return of(scored, learntFromToo, new Source("recipe", Sha256.hex(recipe.text())), AlterationRow.NONE);
    }

    private static Provenance of(
            List<AnnotatedRecording> scored,
            List<AnnotatedRecording> learntFromToo,
            Source answeredBy,
            SoundChange altered) {
        return new Provenance(
                LungwortVersion.CURRENT,
                Runtime.version().toString(),
                System.getProperty("os.arch", "unknown"),
                Data.of(scored),
                learntFromToo.isEmpty() ? null : Data.of(learntFromToo),
                answeredBy,
                altered.id());
    }
}
