package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.json.Json;

/**
 * Recordings that are being made: each second is on the disk before the next one comes, so that a reload, a closed tab or a fallen program loses only what was not sent
 * yet. They lie in the diary's folder, readable by its owner only, as {@code unfinished/ID.json} and {@code unfinished/ID.pcm} (16-bit little-endian mono).
 */
final class Unfinished {
    /** Longest recording, in seconds. */
    static final int MAX_SECONDS = 180;

    private static final String FOLDER = "unfinished";
    private static final int SAMPLE_BYTES = 2;
    private static final double FULL_SCALE = 32_768;

    /** Parts come each second; after this long without one, nobody records any more. */
    private static final long ACTIVE_MS = 4_000;

    private final Path folder;

    Unfinished(Path diaryFolder) {
        this.folder = diaryFolder.resolve(FOLDER);
    }

    /**
     * What is known of a recording.
     *
     * @param id its id
     * @param roundId its round
     * @param site where
     * @param reason why
     * @param sampleRateHz samples a second
     * @param samples how many are stored
     * @param active true if a part came within the last seconds: it is still being made, perhaps in another tab
     */
    record Entry(UUID id, UUID roundId, Site site, TakeReason reason, int sampleRateHz, long samples, boolean active) {
        double seconds() {
            return (double) samples / sampleRateHz;
        }
    }

    /** Begins a recording. */
    synchronized Entry begin(UUID roundId, Site site, TakeReason reason, int sampleRateHz) {
        if (sampleRateHz < Recording.MIN_RATE_HZ || sampleRateHz > Recording.MAX_RATE_HZ) {
            throw new BadInput("The microphone's sample rate of %d Hz cannot be used.".formatted(sampleRateHz));
        }
        Entry entry = new Entry(UUID.randomUUID(), roundId, site, reason, sampleRateHz, 0, true);
        try {
            makeFolder();
            String about = Json.compact(Json.object()
                    .put("round", roundId.toString())
                    .put("site", site.id())
                    .put("take", reason.id())
                    .put("sampleRateHz", sampleRateHz));
            Path part = folder.resolve(entry.id() + ".part");
            try (FileChannel out = FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
                ByteBuffer left = ByteBuffer.wrap(about.getBytes(StandardCharsets.UTF_8));
                while (left.hasRemaining()) {
                    out.write(left);
                }
                out.force(true);
            }
            Files.createFile(sound(entry.id()));
            Files.move(part, about(entry.id()), StandardCopyOption.ATOMIC_MOVE);
            return entry;
        } catch (IOException e) {
            throw cannotStore(e);
        }
    }

    /**
     * Adds samples. What was sent before, because an answer got lost, is passed over.
     *
     * @param from index of the first sample sent
     * @param pcm 16-bit little-endian samples
     * @return the recording as it is now
     * @throws Refused with 409 if samples between are missing
     */
    synchronized Entry append(UUID id, long from, byte[] pcm) {
        Entry entry = get(id);
        if (from > entry.samples() || from < 0 || pcm.length % SAMPLE_BYTES != 0) {
            throw new Refused(409, "A part of the recording is missing; stop and record this take again.");
        }
        long until = from + pcm.length / SAMPLE_BYTES;
        if (until > (long) MAX_SECONDS * entry.sampleRateHz()) {
            throw new Refused(413, "A take is at most %d seconds long; stop here.".formatted(MAX_SECONDS));
        }
        int known = (int) Math.min(pcm.length, (entry.samples() - from) * SAMPLE_BYTES);
        try (FileChannel out = FileChannel.open(sound(id), StandardOpenOption.WRITE)) {
            out.position(entry.samples() * SAMPLE_BYTES);
            ByteBuffer buffer = ByteBuffer.wrap(pcm, known, pcm.length - known);
            while (buffer.hasRemaining()) {
                out.write(buffer);
            }
            out.force(false);
        } catch (IOException e) {
            throw cannotStore(e);
        }
        return get(id);
    }

    /** Its samples from an index on, in [-1, 1). */
    synchronized double[] samples(Entry entry, long from) {
        try (FileChannel in = FileChannel.open(sound(entry.id()), StandardOpenOption.READ)) {
            ByteBuffer buffer = ByteBuffer.allocate((int) Math.max(0, entry.samples() - from) * SAMPLE_BYTES)
                    .order(ByteOrder.LITTLE_ENDIAN);
            in.position(from * SAMPLE_BYTES);
            while (buffer.hasRemaining() && in.read(buffer) >= 0) {
                // Read until the buffer is full or the file ends.
            }
            buffer.flip();
            double[] samples = new double[buffer.remaining() / SAMPLE_BYTES];
            for (int i = 0; i < samples.length; i++) {
                samples[i] = buffer.getShort() / FULL_SCALE;
            }
            return samples;
        } catch (IOException e) {
            throw new BadInput("The unfinished recording cannot be read (%s).".formatted(e.getMessage()), e);
        }
    }

    /** @throws Refused with 404 if there is none, because it was kept or thrown away */
    synchronized Entry get(UUID id) {
        try {
            JsonNode node = Json.parse(Files.readString(about(id), StandardCharsets.UTF_8), "an unfinished recording");
            return new Entry(
                    id,
                    UUID.fromString(Json.text(node, "round")),
                    Sites.of(Json.text(node, "site")),
                    TakeReason.ofId(Json.text(node, "take")),
                    Json.integer(node, "sampleRateHz"),
                    Files.size(sound(id)) / SAMPLE_BYTES,
                    System.currentTimeMillis()
                                    - Files.getLastModifiedTime(sound(id)).toMillis()
                            < ACTIVE_MS);
        } catch (IOException e) {
            throw new Refused(404, "This recording was already kept or thrown away.");
        }
    }

    /** Forgets a recording. */
    synchronized void drop(UUID id) {
        try {
            Files.deleteIfExists(about(id));
            Files.deleteIfExists(sound(id));
        } catch (IOException e) {
            throw cannotStore(e);
        }
    }

    /** Those of a round that hold any sound. */
    synchronized List<Entry> ofRound(UUID roundId) {
        return all().stream()
                .filter(e -> e.roundId().equals(roundId) && e.samples() > 0)
                .sorted(Comparator.comparing(e -> e.site().id()))
                .toList();
    }

    private List<Entry> all() {
        List<Entry> entries = new ArrayList<>();
        if (!Files.isDirectory(folder)) {
            return entries;
        }
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.json")) {
            for (Path file : files) {
                String name = file.getFileName().toString();
                readable(UUID.fromString(name.substring(0, name.length() - ".json".length())))
                        .ifPresent(entries::add);
            }
        } catch (IOException e) {
            throw new BadInput("The unfinished recordings in %s cannot be read.".formatted(folder), e);
        } catch (IllegalArgumentException e) {
            throw new BadInput("There is a file in %s that Lungwort did not make; take it out.".formatted(folder), e);
        }
        return entries;
    }

    /** Empty for one that another page has kept or thrown away since the folder was listed, and for one whose file was damaged by a loss of power: no round may be hidden by it. */
    private Optional<Entry> readable(UUID id) {
        try {
            return Optional.of(get(id));
        } catch (Refused | BadInput | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    private void makeFolder() throws IOException {
        if (Files.isDirectory(folder)) {
            return;
        }
        boolean posix = folder.getFileSystem().supportedFileAttributeViews().contains("posix");
        if (posix) {
            Files.createDirectory(
                    folder, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
        } else {
            Files.createDirectory(folder);
        }
    }

    private static BadInput cannotStore(IOException e) {
        return new BadInput(
                "The recording could not be stored (%s); check the free space of the disk the diary lies on."
                        .formatted(e.getMessage()),
                e);
    }

    private Path about(UUID id) {
        return folder.resolve(id + ".json");
    }

    private Path sound(UUID id) {
        return folder.resolve(id + ".pcm");
    }
}
