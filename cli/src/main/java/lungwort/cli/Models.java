package lungwort.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import lungwort.BadInput;
import lungwort.classify.SoundModel;
import org.jspecify.annotations.Nullable;

/** The model that comes with Lungwort, or another one named by the user. */
public final class Models {
    private static final String SHIPPED = "/lungwort/models/sprsound.lungwort";

    private Models() {}

    /**
     * @param file a model file, or null for the shipped one
     * @throws BadInput if the file is missing, damaged, or made for another feature catalogue
     */
    public static SoundModel load(@Nullable Path file) {
        return file == null ? shipped() : SoundModel.read(file);
    }

    /** The model that comes with Lungwort. */
    public static SoundModel shipped() {
        try (InputStream in = Models.class.getResourceAsStream(SHIPPED)) {
            if (in == null) {
                throw new BadInput("this build of Lungwort holds no model; build it again with mvn package, or name one with --model.");
            }
            return SoundModel.read(in, "the shipped model");
        } catch (IOException e) {
            throw new BadInput("the shipped model cannot be read; build Lungwort again with mvn package.", e);
        }
    }
}
