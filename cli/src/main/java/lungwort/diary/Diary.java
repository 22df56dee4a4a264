package lungwort.diary;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.stream.Stream;
import lungwort.BadInput;

/**
 * A diary: all rounds of the persons someone looks after, kept on this computer only, in a folder that its owner alone can read.
 *
 * <p>One diary may be used by several threads, and one folder by several processes at once. Every change is one transaction: after a crash or a
 * full disk it is there whole or not at all.
 *
 * <pre>{@code
 * try (Diary diary = Diary.open(DiaryFolder.locate(null))) {
 *     Person mia = diary.persons().add("Mia", YearMonth.of(2021, 4), "asthma", ...);
 * }
 * }</pre>
 */
public final class Diary implements AutoCloseable {
    /** As days since 1970-01-01. */
    private static final String LAST_LOCAL_DAY =
            "select max(day) from (select (started_at / 1000 + started_offset) / 86400 as day from round where person_id = ? and started_at <= ?"
                    + " union all select (written_at / 1000 + written_offset) / 86400 from note where person_id = ? and written_at <= ?)";

    /** Name of the database file in the folder. */
    public static final String FILE_NAME = "diary.sqlite";

    private static final String RECORDINGS = "recordings";

    private final Path folder;
    private final Clock clock;
    private final Database database;
    private final RecordingStore recordings;

    private Diary(Path folder, Clock clock, Database database, RecordingStore recordings) {
        this.folder = folder;
        this.clock = clock;
        this.database = database;
        this.recordings = recordings;
    }

    /**
     * Opens the diary in a folder, or begins one there.
     *
     * @throws BadInput if the folder holds other files and no diary, or the diary is damaged, newer than this program, or not writable; nothing is changed then
     */
    public static Diary open(Path folder) {
        return open(folder, Clock.systemDefaultZone());
    }

    /** The same with the clock that dates what is written. */
    public static Diary open(Path folder, Clock clock) {
        Path file = folder.resolve(FILE_NAME);
        prepare(folder, file);
        Database database = Database.open(file);
        Diary diary = new Diary(folder, clock, database, new RecordingStore(folder.resolve(RECORDINGS)));
        try {
            diary.tidy();
            return diary;
        } catch (RuntimeException e) {
            database.close();
            throw e;
        }
    }

    private static void prepare(Path folder, Path file) {
        try {
            if (Files.exists(folder) && !Files.isDirectory(folder)) {
                throw new BadInput("%s is a file; name a folder for the diary.".formatted(folder));
            }
            if (Files.isDirectory(folder) && !Files.exists(file) && !isEmpty(folder)) {
                throw new BadInput(
                        "%s holds other files and no diary (%s is missing); name an empty or a new folder, or put the diary file back."
                                .formatted(folder, FILE_NAME));
            }
            if (Files.exists(file) && Files.size(file) == 0 && Files.exists(folder.resolve(RECORDINGS))) {
                throw new BadInput(
                        "The diary file %s is empty although recordings lie beside it; it was left as it is. Take it back from a copy (lungwort diary import ARCHIVE into another folder)."
                                .formatted(file));
            }
            OwnerOnly.folder(folder);
        } catch (IOException e) {
            throw new BadInput(
                    "The diary's folder %s cannot be made or read (%s); check its permissions and the free space, or name another with --diary."
                            .formatted(folder, e.getMessage()),
                    e);
        }
    }

    private static boolean isEmpty(Path folder) throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.findAny().isEmpty();
        }
    }

    /** Ends what a process that was stopped by force had begun. */
    private void tidy() {
        try {
            recordings.sweepIncoming();
            new PassingArchives(folder).sweep();
            new Keeper(database, recordings).sweep();
        } catch (IOException e) {
            // What cannot be deleted, as on a disk that is mounted for reading, must keep nobody from the diary; an
            // erasure says so.
        }
        eraser().finishWhatWasBegun();
    }

    /** The persons. */
    public Persons persons() {
        return new Persons(database, clock);
    }

    /** The rounds. */
    public Rounds rounds() {
        return new Rounds(database, clock);
    }

    /** The takes and their examinations. */
    public Takes takes() {
        return new Takes(database, recordings, clock);
    }

    /** The notes. */
    public Notes notes() {
        return new Notes(database, clock);
    }

    /** What holds for all persons. */
    public Settings settings() {
        return new Settings(database, clock);
    }

    /** The stored recordings. */
    public RecordingStore recordings() {
        return recordings;
    }

    /** Writing and reading archives. */
    public Archive archive() {
        return new Archive(database, recordings, clock);
    }

    /** Deletes for good. */
    public Eraser eraser() {
        return new Eraser(database, recordings, new UnfinishedRecordings(folder), new PassingArchives(folder));
    }

    /**
     * Where an archive may lie for as long as it is sent or taken in: in the diary's folder, whose owner alone can read it. Whoever asks deletes it; one that is left by a process that was stopped by force is
     * deleted when the diary is next opened.
     *
     * @param what "export" or "import"
     */
    public Path passingArchive(String what) {
        return new PassingArchives(folder).next(what);
    }

    /** The folder the diary lies in. */
    public Path folder() {
        return folder;
    }

    /**
     * The last day to show of a person: today; or the local date of a round or note where that is later, since on a journey the date can go back. One dated by a clock that went ahead of time does not count.
     */
    public LocalDate lastDay(UUID personId) {
        LocalDate today = LocalDate.now(clock);
        Instant now = clock.instant();
        LocalDate told =
                LocalDate.ofEpochDay(database.read(c -> Sql.number(c, LAST_LOCAL_DAY, personId, now, personId, now)));
        return told.isAfter(today) ? told : today;
    }

    /** The clock that dates what is written. */
    public Clock clock() {
        return clock;
    }

    /** Does several changes as one: all of them or, after an exception, none. */
    public <T> T together(Supplier<T> changes) {
        return database.write(c -> changes.get());
    }

    @Override
    public void close() {
        database.close();
    }
}
