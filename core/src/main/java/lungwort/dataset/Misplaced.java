package lungwort.dataset;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import lungwort.BadInput;

/** Where a database may be that is not where it was looked for: deeper, as mirrors and unpackers lay it, further up, not unpacked, or there without its annotations. */
final class Misplaced {
    /** A mirror puts it into one folder, an unpacker into another. */
    private static final int MAX_DEPTH = 3;

    /** A folder that holds a database holds few others; a home folder holds many, and is not searched through. */
    private static final int MAX_FOLDERS = 2000;

    private static final List<String> ARCHIVES = List.of(".zip", ".tar", ".tar.gz", ".tgz", ".rar", ".7z", ".zip.001");

    private Misplaced() {}

    /** A sentence to set behind that of the missing database, beginning with a space; empty if nothing was seen that tells. */
    static String hint(Path folder) {
        return below(folder)
                .map(Misplaced::give)
                .or(() -> above(folder).map(Misplaced::give))
                .or(() -> withoutAnnotations(folder))
                .or(() -> archive(folder))
                .orElse("");
    }

    private static String give(Path found) {
        return " A database lies in %s; give that folder.".formatted(found);
    }

    private static Optional<Path> below(Path folder) {
        try (Stream<Path> walk = Files.walk(folder, MAX_DEPTH)) {
            return walk.filter(Files::isDirectory)
                    .limit(MAX_FOLDERS)
                    .sorted()
                    .filter(Misplaced::isDatabase)
                    .findFirst();
        } catch (IOException | UncheckedIOException e) {
            return Optional.empty();
        }
    }

    private static Optional<Path> above(Path folder) {
        Path parent = folder.toAbsolutePath().normalize().getParent();
        Path grandparent = parent == null ? null : parent.getParent();
        return Stream.of(parent, grandparent)
                .filter(path -> path != null && isDatabase(path))
                .findFirst();
    }

    private static boolean isDatabase(Path folder) {
        try {
            return Arrays.stream(DatabaseKind.values()).anyMatch(kind -> Databases.looksLike(folder, kind));
        } catch (BadInput e) {
            return false; // not to be listed, so not to be given either
        }
    }

    private static Optional<String> withoutAnnotations(Path folder) {
        for (Path root : List.of(folder, folder.resolve(DatabaseKind.SPRSOUND.folderName()))) {
            for (SprsoundLayout.Part part : SprsoundLayout.PARTS) {
                if (Files.isDirectory(root.resolve(part.audio()))) {
                    return Optional.of(" %s is there, but not the annotations %s; unpack them beside it."
                            .formatted(root.resolve(part.audio()), part.annotations()));
                }
            }
        }
        return Optional.empty();
    }

    private static Optional<String> archive(Path folder) {
        try (Stream<Path> list = Files.list(folder)) {
            return list.filter(Misplaced::isArchive)
                    .sorted()
                    .findFirst()
                    .map(file -> " %s is still packed; unpack it first.".formatted(file));
        } catch (IOException | UncheckedIOException e) {
            return Optional.empty();
        }
    }

    static boolean isArchive(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        return ARCHIVES.stream().anyMatch(name::endsWith) && Files.isRegularFile(file);
    }
}
