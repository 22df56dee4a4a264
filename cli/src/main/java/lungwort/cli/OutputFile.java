package lungwort.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import lungwort.BadInput;

/** Checks where the fruit of long work is to be written before the work is done. */
final class OutputFile {
    private OutputFile() {}

    /** Writes a file whole or not at all: who stops the program finds the old one or none. */
    static void write(Path file, String text) throws IOException {
        Path absolute = file.toAbsolutePath();
        Path part = absolute.resolveSibling(absolute.getFileName() + ".part");
        try {
            Files.writeString(part, text);
            Files.move(part, absolute, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    /** @throws BadInput if the file's folder is missing or may not be written to, or the file is a folder */
    static void check(Path file) {
        Path absolute = file.toAbsolutePath();
        Path folder = absolute.getParent();
        if (Files.isDirectory(absolute)) {
            throw new BadInput("%s: this is a folder; name a file in it.".formatted(file));
        }
        if (folder == null || !Files.isDirectory(folder) || !Files.isWritable(folder)) {
            throw new BadInput(
                    "%s: nothing can be written there; choose a folder that exists and that you may write to."
                            .formatted(file));
        }
    }
}
