package lungwort.diary;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/**
 * Recordings as the files they came in, named by the SHA-256 of their bytes: {@code recordings/ab/abcd...}. The same recording is kept once; a
 * file name given by the user never becomes a path.
 */
public final class RecordingStore {
    /** Longest recording file that is kept, in bytes: 200 MB, over half an hour of 44.1 kHz stereo. */
    public static final long MAX_BYTES = 200_000_000;

    private static final Pattern HASH = Pattern.compile("[0-9a-f]{64}");
    private static final Pattern INCOMING = Pattern.compile("incoming-(\\d+)-[0-9a-f-]{36}");
    private static final Pattern KEEPING = Pattern.compile("keeping-(\\d+)-([0-9a-f]{64})");
    private static final int BLOCK_BYTES = 1 << 16;

    /** Opens the file that a recording is written to; tests put in one that fails. */
    interface Opener {
        FileChannel create(Path file) throws IOException;
    }

    private final Path folder;
    private final Opener opener;

    RecordingStore(Path folder) {
        this(folder, OwnerOnly::create);
    }

    RecordingStore(Path folder, Opener opener) {
        this.folder = folder;
        this.opener = opener;
    }

    /**
     * A recording that lies in the folder under a passing name, safe on the disk, and waits for the transaction that names it.
     *
     * @param hash SHA-256 of its bytes, 64 hexadecimal digits
     * @param bytes its length
     */
    record Incoming(Path file, String hash, long bytes) {}

    /**
     * Copies a stream to the disk.
     *
     * @param label name for people, for the sentence
     * @throws BadInput if it is empty, longer than {@link #MAX_BYTES}, cannot be read, or the disk is full; nothing is left behind
     */
    Incoming receive(InputStream in, String label) {
        Path file = folder.resolve(
                "incoming-%d-%s".formatted(ProcessHandle.current().pid(), UUID.randomUUID()));
        boolean done = false;
        try {
            OwnerOnly.folder(folder);
            Incoming incoming = copy(in, file, label);
            done = true;
            return incoming;
        } catch (IOException e) {
            throw new BadInput(
                    "%s could not be stored in %s (%s); nothing stored was changed. Check the free space and permissions of that disk."
                            .formatted(label, folder, e.getMessage()),
                    e);
        } finally {
            if (!done) {
                deleteQuietly(file);
            }
        }
    }

    private Incoming copy(InputStream in, Path file, String label) throws IOException {
        MessageDigest digest = sha256();
        long bytes = 0;
        byte[] block = new byte[BLOCK_BYTES];
        try (FileChannel out = opener.create(file)) {
            for (int n = in.read(block); n >= 0; n = in.read(block)) {
                bytes += n;
                if (bytes > MAX_BYTES) {
                    throw new BadInput("%s is longer than %d MB; cut it to the breaths that matter."
                            .formatted(label, MAX_BYTES / 1_000_000));
                }
                digest.update(block, 0, n);
                ByteBuffer buffer = ByteBuffer.wrap(block, 0, n);
                while (buffer.hasRemaining()) {
                    out.write(buffer);
                }
            }
            out.force(true);
        }
        if (bytes == 0) {
            throw new BadInput("%s is an empty file; record again.".formatted(label));
        }
        return new Incoming(file, HexFormat.of().formatHex(digest.digest()), bytes);
    }

    /**
     * Gives a recording its lasting name; called inside the transaction that names it, so that {@link #sweep} never sees it unnamed. A mark beside it says so until that transaction has ended: a process that is
     * stopped by force before leaves a file that no row names. Whatever no row names cannot be swept without such a mark: an older diary file that was put back does not name the recordings made after it.
     *
     * @return what is to be settled when the transaction has ended; null if the recording was there already
     */
    @Nullable
    Keeping keep(Incoming incoming) {
        Path target = path(incoming.hash());
        Path mark =
                folder.resolve("keeping-%d-%s".formatted(ProcessHandle.current().pid(), incoming.hash()));
        try {
            Path shelf = folder.resolve(incoming.hash().substring(0, 2));
            OwnerOnly.folder(shelf);
            if (Files.exists(target) && isWhole(incoming.hash())) {
                Files.delete(incoming.file());
                return null;
            }
            OwnerOnly.file(mark);
            move(incoming.file(), target);
            OwnerOnly.forceFolder(shelf);
            OwnerOnly.forceFolder(folder);
            return new Keeping(mark, incoming.hash());
        } catch (IOException e) {
            if (!Files.exists(target)) {
                deleteQuietly(mark);
            }
            throw new BadInput(
                    "A recording could not be stored as %s (%s); nothing stored was changed. Check the free space and permissions of that disk."
                            .formatted(target, e.getMessage()),
                    e);
        }
    }

    /**
     * A recording that was given its lasting name in a transaction that may not have ended.
     *
     * @param mark the file that says so
     * @param hash SHA-256 of the recording
     */
    record Keeping(Path mark, String hash) {}

    /** Forgets that the transaction that names a recording has not ended. */
    void kept(Keeping keeping) {
        deleteQuietly(keeping.mark());
    }

    /**
     * Deletes a recording whose transaction was never committed; called inside a write transaction, in which no other process is about to name it.
     *
     * @param named whether a take names it
     */
    void settle(Keeping keeping, boolean named) throws IOException {
        if (!named) {
            Files.deleteIfExists(path(keeping.hash()));
            deleteIfEmpty(path(keeping.hash()).getParent());
        }
        Files.deleteIfExists(keeping.mark());
    }

    /** What processes that no longer run were keeping when they ended. */
    List<Keeping> unsettled() throws IOException {
        List<Keeping> found = new ArrayList<>();
        for (Path entry : entries("keeping-*")) {
            Matcher matcher = KEEPING.matcher(entry.getFileName().toString());
            if (matcher.matches() && hasEnded(matcher.group(1))) {
                found.add(new Keeping(entry, matcher.group(2)));
            }
        }
        return found;
    }

    private static void move(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    /** Forgets a recording that no transaction named. */
    void drop(Incoming incoming) {
        deleteQuietly(incoming.file());
    }

    /**
     * Where a recording lies, whether or not it is there.
     *
     * @throws IllegalArgumentException if the hash is not 64 lower-case hexadecimal digits
     */
    public Path path(String hash) {
        if (!HASH.matcher(hash).matches()) {
            throw new IllegalArgumentException("not a SHA-256 in hexadecimal: " + hash);
        }
        return folder.resolve(hash.substring(0, 2)).resolve(hash);
    }

    /**
     * The bytes of a recording, checked against its hash.
     *
     * @throws BadInput if the file is missing or was changed since it was stored
     */
    public byte[] read(String hash) {
        try {
            byte[] bytes = Files.readAllBytes(path(hash));
            if (!hashOf(bytes).equals(hash)) {
                throw new BadInput(
                        "The stored recording %s was changed since it was stored; take it back from a copy (lungwort diary import)."
                                .formatted(path(hash)));
            }
            return bytes;
        } catch (NoSuchFileException e) {
            throw new BadInput(
                    "The stored recording %s is missing; take it back from a copy (lungwort diary import)."
                            .formatted(path(hash)),
                    e);
        } catch (IOException e) {
            throw new BadInput(
                    "The stored recording %s cannot be read (%s); check the disk."
                            .formatted(path(hash), e.getMessage()),
                    e);
        }
    }

    /** True if the recording is there and its bytes still have its hash. */
    public boolean isWhole(String hash) {
        try (InputStream in = Files.newInputStream(path(hash))) {
            return hashOf(in).equals(hash);
        } catch (IOException e) {
            return false;
        }
    }

    /** A recording at its beginning, if it is there and its bytes still have its hash; else null. It can be read to its end even if it is erased meanwhile. */
    @Nullable
    FileChannel openWhole(String hash) {
        FileChannel channel = null;
        try {
            channel = FileChannel.open(path(hash), StandardOpenOption.READ);
            if (hashOf(Channels.newInputStream(channel)).equals(hash)) {
                channel.position(0);
                return channel;
            }
            channel.close();
        } catch (IOException e) {
            closeQuietly(channel);
        }
        return null;
    }

    private static void closeQuietly(@Nullable FileChannel channel) {
        try {
            if (channel != null) {
                channel.close();
            }
        } catch (IOException e) {
            // What cannot be read counts as missing, however it fails.
            return;
        }
    }

    /** SHA-256 of bytes, in lower-case hexadecimal digits. */
    public static String hashOf(byte[] bytes) {
        return HexFormat.of().formatHex(sha256().digest(bytes));
    }

    /** SHA-256 of a stream to its end, in lower-case hexadecimal digits. */
    static String hashOf(InputStream in) throws IOException {
        MessageDigest digest = sha256();
        byte[] block = new byte[BLOCK_BYTES];
        for (int n = in.read(block); n >= 0; n = in.read(block)) {
            digest.update(block, 0, n);
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    /** The hashes of all recordings that are there. */
    List<String> hashes() {
        List<String> hashes = new ArrayList<>();
        for (Path file : files()) {
            String name = file.getFileName().toString();
            if (HASH.matcher(name).matches()) {
                hashes.add(name);
            }
        }
        return hashes;
    }

    /** Where the recordings lie. */
    Path folder() {
        return folder;
    }

    /**
     * Deletes recordings that nothing names, and what processes that ended by force left half copied; called inside a write transaction.
     *
     * @param named tells whether a hash is named by a take
     * @return how many recordings were deleted
     */
    int sweep(Predicate<String> named) {
        int deleted = 0;
        try {
            for (String hash : hashes()) {
                if (!named.test(hash)) {
                    Files.deleteIfExists(path(hash));
                    deleteIfEmpty(path(hash).getParent());
                    deleted++;
                }
            }
            sweepIncoming();
            for (Keeping left : unsettled()) {
                kept(left);
            }
        } catch (IOException e) {
            throw new BadInput(
                    "A recording in %s could not be deleted (%s); check the permissions, then erase again."
                            .formatted(folder, e.getMessage()),
                    e);
        }
        OwnerOnly.forceFolder(folder);
        return deleted;
    }

    private static void deleteIfEmpty(@Nullable Path shelf) throws IOException {
        if (shelf == null) {
            return;
        }
        try {
            Files.deleteIfExists(shelf);
        } catch (DirectoryNotEmptyException e) {
            // Another recording lies on it.
            return;
        }
    }

    /** Deletes half-copied recordings of processes that no longer run. */
    void sweepIncoming() throws IOException {
        for (Path entry : entries("incoming-*")) {
            Matcher matcher = INCOMING.matcher(entry.getFileName().toString());
            if (matcher.matches() && hasEnded(matcher.group(1))) {
                Files.deleteIfExists(entry);
            }
        }
    }

    private List<Path> entries(String glob) throws IOException {
        List<Path> found = new ArrayList<>();
        if (Files.isDirectory(folder)) {
            try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder, glob)) {
                entries.forEach(found::add);
            }
        }
        return found;
    }

    /** True if no process with that number runs. */
    static boolean hasEnded(String process) {
        return ProcessHandle.of(Long.parseLong(process)).isEmpty();
    }

    private List<Path> files() {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> walk = Files.walk(folder, 2)) {
            return walk.filter(Files::isRegularFile).sorted().toList();
        } catch (IOException e) {
            throw new BadInput(
                    "The recordings in %s cannot be listed (%s); check the permissions."
                            .formatted(folder, e.getMessage()),
                    e);
        } catch (UncheckedIOException e) {
            throw new BadInput(
                    "The recordings in %s cannot be listed (%s); check the permissions."
                            .formatted(folder, e.getMessage()),
                    e);
        }
    }

    private static void deleteQuietly(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            // It will be swept when the diary is next opened.
            return;
        }
    }

    static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
