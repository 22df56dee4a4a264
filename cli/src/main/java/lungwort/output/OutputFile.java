package lungwort.output;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.diary.OwnerOnly;

/**
 * Writes files whole or not at all: who stops the program finds the old one or none, and nothing half written beside it. An older file is replaced only by one of its own kind, so that a slip on the command line costs no recording and no
 * diary.
 */
public final class OutputFile {
    private static final String STANDARD_OUTPUT = "-";

    private OutputFile() {}

    /**
     * Checks where the fruit of long work is to be written before the work is done.
     *
     * @throws BadInput if the file's folder is missing or may not be written to, or what is there already may not be replaced: a folder, a device, a file that is not empty and not of the kind; or if "-" is
     *     given, as for standard output
     */
    public static void check(Path file, OutputKind kind) {
        if (file.toString().equals(STANDARD_OUTPUT)) {
            // A file called "-" is never meant, and hard to take away again.
            throw new BadInput(
                    "-: %s is written to a file, not to standard output; name one (./- for a file of that name)."
                            .formatted(kind.words()));
        }
        Path absolute = file.toAbsolutePath();
        Path folder = absolute.getParent();
        if (folder == null || Files.isDirectory(absolute)) {
            throw new BadInput("%s: this is a folder; name a file in it.".formatted(file));
        }
        if (!Files.isDirectory(folder) || !Files.isWritable(folder)) {
            throw new BadInput("%s: %s cannot be written there; choose a folder that exists and that you may write to."
                    .formatted(file, kind.words()));
        }
        if (Files.exists(absolute) && !isReplaceable(absolute, kind)) {
            throw new BadInput(
                    "%s: this is not %s, and nothing else is written over; name another file, or move this one away first."
                            .formatted(file, kind.words()));
        }
    }

    /**
     * The same, and tries whether a file can be made there at all, as it cannot on a disk that is mounted for reading or in a folder of the system: permissions alone do not tell.
     *
     * @throws BadInput as {@link #check}
     */
    public static void tryOut(Path file, OutputKind kind) {
        check(file, kind);
        Path part = partOf(file);
        try {
            try {
                Files.createFile(part);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw cannotBeWritten(file, kind, e);
        }
    }

    private static Path partOf(Path file) {
        return file.toAbsolutePath().resolveSibling(".lungwort-" + UUID.randomUUID() + ".part");
    }

    private static BadInput cannotBeWritten(Path file, OutputKind kind, IOException e) {
        return new BadInput(
                "%s: %s cannot be written there (%s); check the folder and the free space."
                        .formatted(file, kind.words(), e.getMessage()),
                e);
    }

    private static boolean isReplaceable(Path file, OutputKind kind) {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] start = in.readNBytes(OutputKind.LOOKED_AT);
            return start.length == 0 || kind.isOf(start);
        } catch (IOException e) {
            // What cannot be looked at may be anything.
            return false;
        }
    }

    /**
     * Writes a file that is as readable as any.
     *
     * @throws BadInput as {@link #check}, or if it cannot be written whole
     */
    public static void write(Path file, OutputKind kind, byte[] content) {
        write(
                file,
                kind,
                content,
                part -> FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE));
    }

    /**
     * Writes a file that nobody but its owner can read.
     *
     * @throws BadInput as {@link #check}, or if it cannot be written whole
     */
    public static void writePrivately(Path file, OutputKind kind, byte[] content) {
        write(file, kind, content, OwnerOnly::create);
    }

    private interface Opening {
        FileChannel open(Path file) throws IOException;
    }

    private static void write(Path file, OutputKind kind, byte[] content, Opening opening) {
        check(file, kind);
        Path absolute = file.toAbsolutePath();
        Path part = partOf(file);
        part.toFile().deleteOnExit();
        try {
            try {
                try (FileChannel channel = opening.open(part)) {
                    ByteBuffer left = ByteBuffer.wrap(content);
                    while (left.hasRemaining()) {
                        channel.write(left);
                    }
                }
                Files.move(part, absolute, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw cannotBeWritten(file, kind, e);
        }
    }
}
