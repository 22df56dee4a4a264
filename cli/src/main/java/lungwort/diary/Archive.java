package lungwort.diary;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A diary, or one person's part of it, as one zip file that can be kept elsewhere and read back.
 *
 * <p>It holds {@code rows.jsonl} (each line {@code {"table":.., "row":{..}}}, tables in the order of the schema), {@code recordings/SHA-256} (the files as
 * they came) and {@code manifest.json} (format, schema, version, and length and SHA-256 of every entry). It is not encrypted.
 */
public final class Archive {
    /** What {@code manifest.json} calls the format. */
    static final String FORMAT = "lungwort-diary";

    /** The newest arrangement of entries this version reads; the rows have their own number, the schema. */
    static final int FORMAT_VERSION = 1;

    static final String MANIFEST = "manifest.json";
    static final String ROWS = "rows.jsonl";
    static final String RECORDINGS = "recordings/";
    static final Pattern RECORDING = Pattern.compile("recordings/[0-9a-f]{64}");

    private final Database database;
    private final RecordingStore recordings;
    private final Clock clock;

    Archive(Database database, RecordingStore recordings, Clock clock) {
        this.database = database;
        this.recordings = recordings;
        this.clock = clock;
    }

    /**
     * What was written.
     *
     * @param rounds number of rounds
     * @param takes number of takes
     * @param recordings number of recording files
     * @param missing hashes of recordings that takes name, but that are missing or damaged here, and so are not in the archive
     */
    public record Exported(int rounds, int takes, int recordings, List<String> missing) {
        public Exported {
            missing = List.copyOf(missing);
        }
    }

    /**
     * What was taken in.
     *
     * @param added number of rows that were new, by what they are
     * @param changed number of rows that both had and that differed: the newer was kept, the older is remembered
     * @param recordings number of recording files that were new
     * @param remarks anything the user should know, each a sentence
     */
    public record Imported(Added added, int changed, int recordings, List<String> remarks) {
        public Imported {
            remarks = List.copyOf(remarks);
        }
    }

    /** Numbers of new rows. */
    public record Added(int persons, int rounds, int takes, int examinations, int notes) {}

    /**
     * Writes an archive, readable by its owner only.
     *
     * @param file where; there must be no file yet
     * @param personId whose part, or null for the whole diary
     * @throws lungwort.BadInput if there is a file already, or it cannot be written
     */
    public Exported write(Path file, @Nullable UUID personId) {
        return new ArchiveWriter(database, recordings, clock).write(file, personId);
    }

    /**
     * Takes an archive in. Every entry is checked against the manifest before anything is stored; then everything is stored in one transaction. What this diary has and the
     * archive has not, stays; where both differ, the newer counts and the other is remembered.
     *
     * @throws lungwort.BadInput if the archive is cut, changed, of another kind, or newer than this program; nothing is stored then
     */
    public Imported read(Path file) {
        return new ArchiveReader(database, recordings, clock).read(file);
    }
}
