package lungwort.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import lungwort.BadInput;

/** Files and folders named on the command line, as a list of files. */
final class AudioFiles {
    /** Which files of a folder are taken; a file named by itself is always read, whatever it is called. */
    private static final Set<String> ENDINGS =
            Set.of("wav", "wave", "flac", "m4a", "mp4", "aac", "mp3", "ogg", "oga", "opus", "webm", "3gp", "amr");

    private AudioFiles() {}

    /**
     * Files in the order given; a folder stands for the recordings below it, in order of name. A folder that is named may be a link to one; links to folders below it are not followed, since they can
     * lead round in a circle.
     *
     * @throws BadInput if a path does not exist or a folder holds no recording
     */
    static List<Path> expand(List<Path> paths) {
        List<Path> files = new ArrayList<>();
        for (Path path : paths) {
            if (path.toString().isEmpty()) {
                // Java takes it for the current folder; it is a name that a script failed to fill in.
                throw new BadInput("The name of a recording is empty; name a file or a folder.");
            }
            if (Files.isDirectory(path)) {
                files.addAll(inFolder(path));
            } else if (Files.exists(path)) {
                files.add(path);
            } else {
                throw new BadInput(path + ": there is no such file; check the name and the folder.");
            }
        }
        return files;
    }

    private static List<Path> inFolder(Path folder) {
        try {
            Path real = folder.toRealPath();
            List<Path> found = below(real).stream()
                    .map(file -> folder.resolve(real.relativize(file)))
                    .toList();
            if (found.isEmpty()) {
                throw new BadInput(folder + ": this folder holds no recording (looked for "
                        + String.join(", ", new java.util.TreeSet<>(ENDINGS)) + ").");
            }
            return found;
        } catch (IOException | java.io.UncheckedIOException e) {
            throw new BadInput(folder + ": this folder cannot be read; check that you may open it.", e);
        }
    }

    private static List<Path> below(Path folder) throws IOException {
        try (Stream<Path> tree = Files.walk(folder)) {
            return tree.filter(Files::isRegularFile)
                    .filter(AudioFiles::looksLikeSound)
                    .sorted()
                    .toList();
        }
    }

    private static boolean looksLikeSound(Path file) {
        String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
        return !name.startsWith(".") && ENDINGS.contains(name.substring(name.lastIndexOf('.') + 1));
    }
}
