package lungwort.diary;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.BufferedOutputStream;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import lungwort.BadInput;
import lungwort.LungwortVersion;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;

/** Writes archives; see {@link Archive}. */
final class ArchiveWriter {
    private static final String ONE_PERSON = "select * from %s where %s order by rowid";
    private static final Map<String, String> OF_PERSON = Map.of(
            "person", "id = ?",
            "round", "person_id = ?",
            "take", "round_id in (select id from round where person_id = ?)",
            "examination",
                    "take_id in (select take.id from take join round on round.id = take.round_id where round.person_id = ?)",
            "note", "person_id = ?",
            "earlier", "person_id = ?");

    /** Behind the name of an archive while it is written. */
    static final String UNFINISHED = ".unfinished";

    private final Database database;
    private final RecordingStore recordings;
    private final Clock clock;

    ArchiveWriter(Database database, RecordingStore recordings, Clock clock) {
        this.database = database;
        this.recordings = recordings;
        this.clock = clock;
    }

    Archive.Exported write(Path file, @Nullable UUID personId) {
        Path target = file.toAbsolutePath();
        if (Files.exists(target)) {
            throw new BadInput("%s exists already; name another file, or delete it first.".formatted(file));
        }
        // In sight, so that whoever pulled the plug finds and deletes it: it may hold all of the diary.
        Path part = target.resolveSibling(target.getFileName() + UNFINISHED);
        part.toFile().deleteOnExit();
        try {
            Files.deleteIfExists(part);
            Archive.Exported exported = writePart(part, personId);
            Files.move(part, target);
            return exported;
        } catch (FileAlreadyExistsException e) {
            throw new BadInput("%s exists already; name another file, or delete it first.".formatted(file), e);
        } catch (IOException | UncheckedIOException e) {
            throw new BadInput(
                    "The archive %s cannot be written (%s); check the folder, its permissions and the free space."
                            .formatted(file, e.getMessage()),
                    e);
        } finally {
            deleteQuietly(part);
        }
    }

    private Archive.Exported writePart(Path part, @Nullable UUID personId) throws IOException {
        try (FileChannel channel = OwnerOnly.create(part);
                ZipOutputStream zip =
                        new ZipOutputStream(new BufferedOutputStream(Channels.newOutputStream(channel)))) {
            ObjectNode manifest = Json.object();
            manifest.put("format", Archive.FORMAT);
            manifest.put("formatVersion", Archive.FORMAT_VERSION);
            manifest.put("schema", Schema.NEWEST);
            manifest.put("lungwort", LungwortVersion.CURRENT);
            manifest.put("written", clock.instant().toString());
            ArrayNode entries = manifest.putArray("entries");
            Map<String, Integer> counts = new HashMap<>();
            List<String> hashes = new ArrayList<>();
            entries.add(entry(zip, Archive.ROWS, out -> hashes.addAll(rows(out, personId, counts))));
            List<String> missing = new ArrayList<>();
            int written = 0;
            for (String hash : hashes) {
                try (FileChannel recording = recordings.openWhole(hash)) {
                    if (recording == null) {
                        missing.add(hash);
                        continue;
                    }
                    InputStream in = Channels.newInputStream(recording);
                    entries.add(entry(zip, Archive.RECORDINGS + hash, in::transferTo));
                    written++;
                }
            }
            ArrayNode absent = manifest.putArray("missing");
            missing.forEach(absent::add);
            zip.putNextEntry(dated(Archive.MANIFEST));
            zip.write(Json.pretty(manifest).getBytes(StandardCharsets.UTF_8));
            zip.closeEntry();
            zip.finish();
            zip.flush();
            channel.force(true);
            return new Archive.Exported(
                    counts.getOrDefault("round", 0), counts.getOrDefault("take", 0), written, missing);
        }
    }

    /** Writes the content of an entry. */
    private interface Content {
        void writeTo(OutputStream out) throws IOException;
    }

    private static ObjectNode entry(ZipOutputStream zip, String name, Content content) throws IOException {
        zip.putNextEntry(dated(name));
        Measured out = new Measured(zip);
        content.writeTo(out);
        zip.closeEntry();
        return Json.object().put("name", name).put("bytes", out.bytes).put("sha256", out.hash());
    }

    /** The same diary gives the same archive: entries carry no time of their own. */
    private static ZipEntry dated(String name) {
        ZipEntry entry = new ZipEntry(name);
        entry.setTimeLocal(java.time.LocalDateTime.of(1980, 1, 1, 0, 0));
        return entry;
    }

    /** Writes the rows; returns the recordings that they name, of the same moment: an archive whose rows name another is refused when it is taken in. */
    private List<String> rows(OutputStream out, @Nullable UUID personId, Map<String, Integer> counts) {
        return database.read(c -> {
            for (String table : Schema.TABLES) {
                counts.put(table, rows(c, out, table, personId));
            }
            return hashes(c, personId);
        });
    }

    private static int rows(Connection c, OutputStream out, String table, @Nullable UUID personId) throws SQLException {
        String where = personId == null ? null : OF_PERSON.get(table);
        if (personId != null && where == null) {
            // Settings belong to nobody in particular.
            return 0;
        }
        String sql = ONE_PERSON.formatted(table, where == null ? "true" : where);
        return Sql.list(
                        c,
                        row -> {
                            ObjectNode line = Json.object().put("table", table);
                            line.set("row", Rows.read(row));
                            write(out, Json.compact(line) + "\n");
                            return true;
                        },
                        sql,
                        where == null ? new Object[0] : new Object[] {personId})
                .size();
    }

    private static void write(OutputStream out, String text) {
        try {
            out.write(text.getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> hashes(Connection c, @Nullable UUID personId) throws SQLException {
        String all = "select distinct recording_sha256 from take order by 1";
        String one = "select distinct recording_sha256 from take where %s order by 1".formatted(OF_PERSON.get("take"));
        return personId == null
                ? Sql.list(c, row -> row.getString(1), all)
                : Sql.list(c, row -> row.getString(1), one, personId);
    }

    private static void deleteQuietly(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            // A part that cannot be deleted is overwritten by the next try.
            return;
        }
    }

    /** Counts and hashes what passes; does not close what it writes to. */
    private static final class Measured extends FilterOutputStream {
        private final java.security.MessageDigest digest = RecordingStore.sha256();
        private long bytes;

        Measured(OutputStream out) {
            super(out);
        }

        @Override
        public void write(int b) throws IOException {
            out.write(b);
            digest.update((byte) b);
            bytes++;
        }

        @Override
        public void write(byte[] block, int from, int length) throws IOException {
            out.write(block, from, length);
            digest.update(block, from, length);
            bytes += length;
        }

        String hash() {
            return java.util.HexFormat.of().formatHex(digest.digest());
        }
    }
}
