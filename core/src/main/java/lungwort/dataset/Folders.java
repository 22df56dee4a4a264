package lungwort.dataset;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import lungwort.BadInput;

/** Listing and reading a database's small files. */
final class Folders {
    /** No annotation file of a public database comes near this. */
    private static final long MAX_ANNOTATION_BYTES = 4L << 20;

    private Folders() {}

    /** Plain files with an ending, any case, sorted by name; hidden ones are left out (some systems leave {@code ._name} beside a file). */
    static List<Path> files(Path folder, String ending) {
        try (Stream<Path> list = Files.list(folder)) {
            return list.filter(path -> {
                        String name = path.getFileName().toString();
                        return !name.startsWith(".")
                                && name.toLowerCase(Locale.ROOT).endsWith(ending)
                                && Files.isRegularFile(path);
                    })
                    .sorted()
                    .toList();
        } catch (IOException | UncheckedIOException e) {
            throw BadInput.because(
                    e, "%s: the folder cannot be listed (%s); check that you may read it.", folder, e.getMessage());
        }
    }

    /** File name without its last ending. */
    static String stem(Path file) {
        String name = file.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return dot < 0 ? name : name.substring(0, dot);
    }

    /** A file in the folder or, as some unpack it, one folder up. */
    static Optional<Path> beside(Path folder, String name) {
        return Stream.of(folder.resolve(name), folder.toAbsolutePath().resolveSibling(name))
                .filter(Files::isRegularFile)
                .findFirst();
    }

    static byte[] bytes(Path file) {
        try {
            long size = Files.size(file);
            if (size == 0 || size > MAX_ANNOTATION_BYTES) {
                throw BadInput.of(
                        "%s: it has %d bytes, which no annotation file of this database has; unpack the download again.",
                        file, size);
            }
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", file, e.getMessage());
        }
    }
}
