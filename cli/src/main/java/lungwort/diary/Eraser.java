package lungwort.diary;

import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.HashSet;
import java.util.Set;
import java.util.UUID;
import lungwort.BadInput;

/**
 * Deletes persons, rounds and takes for good: their rows are overwritten with zeros (SQLite's secure_delete), the file is rebuilt without them,
 * and recordings that nobody else's take names are deleted.
 *
 * <p>Out of reach are copies made elsewhere (archives, backups) and what a disk keeps of blocks it has freed; commands say so.
 */
public final class Eraser {
    /** Set while an erasure has begun and not ended, so that the next start ends it. */
    static final String BEGUN = "erasure-begun";

    private static final String NO_ROUND = "id in (select round_id from take where id = ?) and false";

    private final Database database;
    private final RecordingStore recordings;
    private final UnfinishedRecordings unfinished;
    private final PassingArchives passing;

    Eraser(Database database, RecordingStore recordings, UnfinishedRecordings unfinished, PassingArchives passing) {
        this.database = database;
        this.recordings = recordings;
        this.unfinished = unfinished;
        this.passing = passing;
    }

    /**
     * What was deleted.
     *
     * @param rounds number of rounds
     * @param takes number of takes
     * @param recordings number of recording files
     */
    public record Erased(int rounds, int takes, int recordings) {}

    /** Erases a person with all rounds, takes, examinations, recordings, notes and earlier versions. */
    public Erased person(UUID personId) {
        return erase("person", personId, "person_id = ?");
    }

    /** Erases one round with its takes and recordings. */
    public Erased round(UUID roundId) {
        return erase("round", roundId, "id = ?");
    }

    /** Erases one take with its recording. */
    public Erased take(UUID takeId) {
        return erase("take", takeId, NO_ROUND);
    }

    /**
     * Takes one take out of its round, with its recording. The file is not rebuilt, which needs free space that a full disk has not; the rows are overwritten with zeros all the same.
     *
     * @param check runs first, in the same transaction; what it throws keeps the take
     * @throws BadInput if the take could not be deleted, and then nothing is changed; or if it was, and its recording could not yet
     */
    public Erased takeOut(UUID takeId, Runnable check) {
        int[] counts = database.write(c -> {
            check.run();
            return delete(c, "take", takeId, NO_ROUND);
        });
        try {
            return new Erased(counts[0], counts[1], database.write(c -> {
                int deleted = sweep(c);
                ended(c);
                return deleted;
            }));
        } catch (BadInput e) {
            throw BadInput.because(
                    e,
                    "The take is out of the round, but its recording is not yet deleted: make room on the disk, or check the permissions of %s; the next start of Lungwort tries again.",
                    recordings.folder());
        }
    }

    private Erased erase(String table, UUID id, String roundsWhere) {
        int[] counts = database.write(c -> delete(c, table, id, roundsWhere));
        return new Erased(counts[0], counts[1], finish());
    }

    private static int[] delete(Connection c, String table, UUID id, String roundsWhere) throws SQLException {
        if (Sql.number(c, "select count(*) from %s where id = ?".formatted(table), id) == 0) {
            throw new BadInput("There is no %s %s in this diary; nothing was erased.".formatted(table, id));
        }
        begin(c);
        int rounds = (int) Sql.number(c, "select count(*) from round where " + roundsWhere, id);
        int takes = (int) Sql.number(c, "select count(*) from take");
        Sql.update(c, "delete from %s where id = ?".formatted(table), id);
        Sql.update(
                c,
                "delete from earlier where (table_name = 'round' and row_id not in (select id from round))"
                        + " or (table_name = 'take' and row_id not in (select id from take))"
                        + " or (table_name = 'note' and row_id not in (select id from note))");
        return new int[] {rounds, takes - (int) Sql.number(c, "select count(*) from take")};
    }

    /** Ends an erasure that a process stopped by force had begun. */
    void finishWhatWasBegun() {
        boolean begun = database.read(c -> Sql.number(c, "select count(*) from setting where name = ?", BEGUN)) > 0;
        if (begun) {
            try {
                finish();
            } catch (BadInput e) {
                // A full disk must not keep anybody from the diary; the mark stays, and the next start tries again.
                return;
            }
        }
    }

    private int finish() {
        int deleted = database.write(this::sweep);
        database.compact();
        database.write(Eraser::ended);
        return deleted;
    }

    /** Deletes the recordings that no take names any more. */
    private int sweep(Connection c) throws SQLException {
        Set<String> named =
                new HashSet<>(Sql.list(c, row -> row.getString(1), "select distinct recording_sha256 from take"));
        Set<String> rounds = new HashSet<>(Sql.list(c, row -> row.getString(1), "select id from round"));
        unfinished.sweep(rounds::contains);
        sweepPassing();
        return recordings.sweep(named::contains);
    }

    private void sweepPassing() {
        try {
            passing.sweep();
        } catch (IOException e) {
            throw new BadInput(
                    "A copy of the diary that was left unfinished beside it could not be deleted (%s); check the permissions, then erase again."
                            .formatted(e.getMessage()),
                    e);
        }
    }

    private static int ended(Connection c) throws SQLException {
        return Sql.update(c, "delete from setting where name = ?", BEGUN);
    }

    static void begin(Connection c) throws SQLException {
        Sql.update(
                c,
                "insert into setting (name, content, changed_at) values (?, '', 0) on conflict (name) do nothing",
                BEGUN);
    }
}
