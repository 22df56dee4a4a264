package lungwort.cli;

import java.nio.file.Path;
import java.util.function.Supplier;
import lungwort.BadInput;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;

/** Model files that are named on the command line. */
final class GivenModel {
    private GivenModel() {}

    /** @throws BadInput as {@link ModelFile#read(Path)}, with the command that makes models */
    static SoundModel read(Path file) {
        return withTheCommand(() -> ModelFile.read(file));
    }

    /** @throws BadInput as {@link ModelFile#content}, with the command that makes models */
    static byte[] content(Path file) {
        return withTheCommand(() -> ModelFile.content(file));
    }

    /** @throws BadInput as {@link ModelFile#read(byte[], String)}, with the command that makes models */
    static SoundModel read(byte[] content, Path file) {
        return withTheCommand(() -> ModelFile.read(content, file.toString()));
    }

    /** The library that reads models knows of no command line. */
    private static <T> T withTheCommand(Supplier<T> reading) {
        try {
            return reading.get();
        } catch (BadInput e) {
            throw new BadInput(e.getMessage() + " Models are made with `lungwort train`.", e);
        }
    }
}
