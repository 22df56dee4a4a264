package lungwort.dataset;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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

    /**
     * The audio files of a folder by the names of their recordings, whatever the case of their ending; none if the folder is not there.
     *
     * @throws BadInput if there are two
     */
    static Map<String, Path> audio(Path folder) {
        Map<String, Path> byId = new HashMap<>();
        if (!Files.isDirectory(folder)) {
            return byId;
        }
        for (Path file : files(folder, ".wav")) {
            Path other = byId.put(stem(file), file);
            if (other != null) {
                throw BadInput.of(
                        "%s: beside it lies %s, so the sound of this recording is not one; take one of them away.",
                        file, other.getFileName());
            }
        }
        return byId;
    }

    /** The text of a small file, without the mark of byte order that some editors begin it with. */
    static String text(Path file) {
        String text = new String(bytes(file), StandardCharsets.UTF_8);
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
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
