package lungwort.dataset;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import lungwort.BadInput;

/** An audio file of a database as far as its annotations need it: is it there, how large, how long. */
record AudioFile(Path path, long bytes, OptionalDouble durationSeconds) {
    static AudioFile at(Path path) {
        if (!Files.isRegularFile(path)) {
            return new AudioFile(path, AnnotatedRecording.NO_AUDIO, OptionalDouble.empty());
        }
        try {
            return new AudioFile(path, Files.size(path), OptionalDouble.of(WavLength.seconds(path)));
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", path, e.getMessage());
        }
    }
}
