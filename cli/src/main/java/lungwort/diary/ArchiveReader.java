package lungwort.diary;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import lungwort.BadInput;
import lungwort.diary.RecordingStore.Incoming;
import lungwort.json.Json;

/** Reads archives; see {@link Archive}. */
final class ArchiveReader {
    private static final int MAX_ENTRIES = 500_000;
    private static final int MAX_MANIFEST_BYTES = 200_000_000;

    private final Database database;
    private final RecordingStore recordings;
    private final Clock clock;

    ArchiveReader(Database database, RecordingStore recordings, Clock clock) {
        this.database = database;
        this.recordings = recordings;
        this.clock = clock;
    }

    Archive.Imported read(Path file) {
        if (!Files.isRegularFile(file)) {
            throw new BadInput(
                    "%s: there is no such file; name the archive that `lungwort diary export` wrote.".formatted(file));
        }
        List<Incoming> incoming = new ArrayList<>();
        try (ZipFile zip = new ZipFile(file.toFile())) {
            JsonNode manifest = manifest(zip, file);
            Map<String, JsonNode> entries = entries(zip, manifest, file);
            verify(zip, entries, file);
            try (Database archived = rows(zip, file)) {
                receive(zip, archived, manifest, incoming, file);
                return database.write(c -> {
                    Archive.Imported imported = new Merge(c, clock.instant()).merge(archived, incoming.size());
                    incoming.forEach(new Keeper(database, recordings)::keep);
                    return imported;
                });
            }
        } catch (IOException e) {
            throw damaged(file, e.getMessage() == null ? e.toString() : e.getMessage());
        } finally {
            incoming.forEach(recordings::drop);
        }
    }

    private static JsonNode manifest(ZipFile zip, Path file) throws IOException {
        ZipEntry entry = zip.getEntry(Archive.MANIFEST);
        if (entry == null) {
            throw new BadInput(
                    "%s is a zip file, but not a diary's archive (it has no %s).".formatted(file, Archive.MANIFEST));
        }
        byte[] bytes;
        try (InputStream in = zip.getInputStream(entry)) {
            bytes = in.readNBytes(MAX_MANIFEST_BYTES);
        }
        JsonNode manifest = Json.parse(new String(bytes, StandardCharsets.UTF_8), file + ", " + Archive.MANIFEST);
        if (!Archive.FORMAT.equals(manifest.path("format").asText())) {
            throw new BadInput("%s is not a diary's archive.".formatted(file));
        }
        int schema = manifest.path("schema").asInt(0);
        int version = manifest.path("formatVersion").asInt(0);
        if (version > Archive.FORMAT_VERSION || schema > Schema.NEWEST) {
            throw new BadInput("%s was written by a newer Lungwort (%s); install that one to read it."
                    .formatted(file, manifest.path("lungwort").asText("unknown")));
        }
        if (version < 1 || schema < 1) {
            throw damaged(file, "its manifest has no format or schema number");
        }
        return manifest;
    }

    private static Map<String, JsonNode> entries(ZipFile zip, JsonNode manifest, Path file) {
        Map<String, JsonNode> listed = new TreeMap<>();
        for (JsonNode entry : manifest.path("entries")) {
            String name = entry.path("name").asText();
            boolean known =
                    name.equals(Archive.ROWS) || Archive.RECORDING.matcher(name).matches();
            if (!known || listed.put(name, entry) != null) {
                throw damaged(file, "its manifest lists \"%s\"".formatted(name));
            }
        }
        Set<String> present = new HashSet<>();
        for (Enumeration<? extends ZipEntry> all = zip.entries(); all.hasMoreElements(); ) {
            String name = all.nextElement().getName();
            boolean expected = name.equals(Archive.MANIFEST) || listed.containsKey(name);
            if (!expected || !present.add(name) || present.size() > MAX_ENTRIES) {
                throw damaged(file, "it holds \"%s\", which its manifest does not list".formatted(name));
            }
        }
        for (String name : listed.keySet()) {
            if (!present.contains(name)) {
                throw damaged(file, "%s is missing from it".formatted(name));
            }
        }
        if (!listed.containsKey(Archive.ROWS)) {
            throw damaged(file, "%s is missing from it".formatted(Archive.ROWS));
        }
        return listed;
    }

    private static void verify(ZipFile zip, Map<String, JsonNode> entries, Path file) throws IOException {
        for (Map.Entry<String, JsonNode> listed : entries.entrySet()) {
            String name = listed.getKey();
            long bytes = listed.getValue().path("bytes").asLong(-1);
            String hash = listed.getValue().path("sha256").asText();
            if (name.startsWith(Archive.RECORDINGS) && !name.endsWith(hash)) {
                throw damaged(file, "%s has another hash than its name".formatted(name));
            }
            try (InputStream in = bounded(zip, name, bytes)) {
                if (!RecordingStore.hashOf(in).equals(hash)) {
                    throw damaged(file, "%s was changed since it was written".formatted(name));
                }
            }
        }
    }

    /** The stream of an entry, at most one byte longer than it should be: an entry that unpacks without end is cut, and its hash fails. */
    private static InputStream bounded(ZipFile zip, String name, long bytes) throws IOException {
        ZipEntry entry = zip.getEntry(name);
        return new BoundedInput(zip.getInputStream(entry), Math.max(0, bytes) + 1);
    }

    /** The archive's rows in a database in memory, of the newest schema, every one of them read as what it should be. */
    private static Database rows(ZipFile zip, Path file) throws IOException {
        Database archived = Database.inMemory();
        boolean good = false;
        try (BufferedReader lines = new BufferedReader(
                new InputStreamReader(zip.getInputStream(zip.getEntry(Archive.ROWS)), StandardCharsets.UTF_8))) {
            archived.write(c -> insert(c, lines, file));
            readAsValues(archived);
            good = true;
            return archived;
        } catch (BadInput | IllegalArgumentException | IllegalStateException | java.time.DateTimeException e) {
            throw damaged(file, "%s holds what no diary holds: %s".formatted(Archive.ROWS, e.getMessage()));
        } finally {
            if (!good) {
                archived.close();
            }
        }
    }

    private static int insert(Connection c, BufferedReader lines, Path file) throws SQLException {
        int count = 0;
        try {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                count++;
                JsonNode node = Json.parse(line, "line " + count);
                String table = Json.text(node, "table");
                if (!Schema.TABLES.contains(table)) {
                    throw new BadInput("line %d: no table is called %s".formatted(count, table));
                }
                Rows.insert(c, table, Json.need(node, "row"));
            }
        } catch (IOException e) {
            throw damaged(file, Archive.ROWS + " cannot be read");
        }
        return count;
    }

    private static void readAsValues(Database archived) {
        Clock clock = Clock.systemDefaultZone();
        Takes takes = new Takes(archived, new RecordingStore(Path.of("none")), clock);
        for (Person person : new Persons(archived, clock).all()) {
            List<Round> rounds = new Rounds(archived, clock).ofPerson(person.id());
            List<Note> notes = new Notes(archived, clock).ofPerson(person.id());
            List<Take> all = takes.ofPerson(person.id());
            all.forEach(t -> takes.examinations(t.id()));
            if (rounds.isEmpty() && !all.isEmpty()) {
                throw new IllegalStateException(
                        "%d takes and %d notes without a round".formatted(all.size(), notes.size()));
            }
        }
    }

    private void receive(ZipFile zip, Database archived, JsonNode manifest, List<Incoming> incoming, Path file)
            throws IOException {
        Set<String> missing = new HashSet<>();
        manifest.path("missing").forEach(hash -> missing.add(hash.asText()));
        List<String> named = archived.read(
                c -> Sql.list(c, row -> row.getString(1), "select distinct recording_sha256 from take order by 1"));
        for (String hash : named) {
            ZipEntry entry = zip.getEntry(Archive.RECORDINGS + hash);
            if (entry == null && !missing.contains(hash)) {
                throw damaged(file, "the recording %s is missing from it".formatted(hash));
            }
            if (entry != null && !recordings.isWhole(hash)) {
                try (InputStream in = zip.getInputStream(entry)) {
                    Incoming received = recordings.receive(in, "A recording of " + file);
                    incoming.add(received);
                    if (!received.hash().equals(hash)) {
                        throw damaged(file, "the recording %s was changed".formatted(hash));
                    }
                }
            }
        }
    }

    private static BadInput damaged(Path file, String how) {
        return new BadInput(
                "The archive %s is damaged (%s); nothing was stored. Use another copy of it.".formatted(file, how));
    }
}
