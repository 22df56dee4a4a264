package lungwort.diary;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/**
 * Files and folders that only their owner can read. Where the file system knows no POSIX permissions (Windows) they are left as the user's
 * own data folder gives them, which other users cannot read either.
 */
public final class OwnerOnly {
    private static final Set<PosixFilePermission> FOLDER = PosixFilePermissions.fromString("rwx------");
    private static final Set<PosixFilePermission> FILE = PosixFilePermissions.fromString("rw-------");

    private OwnerOnly() {}

    /** Creates the folder and those above it where missing; its own permissions become 0700. */
    static void folder(Path folder) throws IOException {
        Path above = folder.getParent();
        if (above != null) {
            Files.createDirectories(above);
        }
        try {
            Files.createDirectory(folder, attributes(above == null ? folder : above, FOLDER));
        } catch (FileAlreadyExistsException e) {
            if (!Files.isDirectory(folder)) {
                throw e;
            }
        }
        set(folder, FOLDER);
    }

    /** Creates an empty file with permissions 0600 from its first moment; one that exists is given them. */
    static void file(Path file) throws IOException {
        try {
            create(file).close();
        } catch (FileAlreadyExistsException e) {
            set(file, FILE);
        }
    }

    /**
     * Opens a new file for writing.
     *
     * @throws FileAlreadyExistsException if there is one
     */
    public static FileChannel create(Path file) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        return FileChannel.open(
                file,
                Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
                attributes(folder == null ? file : folder, FILE));
    }

    /** Makes a rename or a new name in the folder last through a loss of power, where the system can. */
    static void forceFolder(Path folder) {
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            // Windows does not open folders; its renames are journalled by the file system.
            return;
        }
    }

    private static FileAttribute<?>[] attributes(Path where, Set<PosixFilePermission> permissions) {
        return isPosix(where)
                ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(permissions)}
                : new FileAttribute<?>[0];
    }

    private static void set(Path path, Set<PosixFilePermission> permissions) throws IOException {
        if (isPosix(path)) {
            Set<PosixFilePermission> now = Files.getPosixFilePermissions(path);
            if (!now.equals(permissions)) {
                Files.setPosixFilePermissions(path, permissions);
            }
        }
    }

    private static boolean isPosix(Path path) {
        return Files.getFileAttributeView(path, PosixFileAttributeView.class) != null;
    }
}
