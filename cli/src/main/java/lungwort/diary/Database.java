package lungwort.diary;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import lungwort.BadInput;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;
import org.sqlite.SQLiteJDBCLoader;

/**
 * The SQLite file of a diary: opened, checked, migrated, and read or written in whole transactions.
 *
 * <p>A rollback journal rather than a write-ahead log: between transactions the diary is one file that can be copied, and it also works in a folder on
 * a network. {@code synchronous=EXTRA}: what was committed outlasts a loss of power. A lock lets several threads share one connection; several processes wait for one
 * another up to {@link #WAIT_MS}.
 */
final class Database implements AutoCloseable {
    /** Marks the file as a Lungwort diary ("LUNG" in ASCII); another program's SQLite file is refused. */
    static final int APPLICATION_ID = 0x4C554E47;

    /** How long one process waits for another, in ms. */
    static final int WAIT_MS = 20_000;

    /** A piece of work with the database. */
    interface Work<T> {
        T run(Connection c) throws SQLException;
    }

    private final Path file;
    private final Connection connection;
    private final ReentrantLock lock = new ReentrantLock();
    private final List<Consumer<Boolean>> afterwards = new ArrayList<>();
    private boolean writing;

    private Database(Path file, Connection connection) {
        this.file = file;
        this.connection = connection;
    }

    /**
     * Opens the file, making an empty one (readable by its owner only) where there is none, and brings it to the newest schema.
     *
     * @throws BadInput if it is not a diary, is damaged, or was written by a newer Lungwort; the file is then left as it was
     */
    static Database open(Path file) {
        try {
            // Java must not open and close the file while it is in use: closing it would end SQLite's own locks on it
            // (POSIX).
            OwnerOnly.file(file);
        } catch (IOException e) {
            throw new BadInput(
                    "The diary %s cannot be opened (%s); check the folder's permissions and free space."
                            .formatted(file, e.getMessage()),
                    e);
        }
        return opened(file, "jdbc:sqlite:" + file);
    }

    /** An empty diary in memory, for reading archives. */
    static Database inMemory() {
        return opened(Path.of("archive"), "jdbc:sqlite::memory:");
    }

    private static Database opened(Path file, String url) {
        loadSqlite();
        Connection connection;
        try {
            connection = config().createConnection(url);
        } catch (SQLException e) {
            throw sentence(e, file);
        }
        Database database = new Database(file, connection);
        try {
            database.checkAndMigrate();
            return database;
        } catch (RuntimeException e) {
            database.close();
            throw e;
        }
    }

    /** SQLite comes inside the program and must be laid out in the temporary folder before it can be loaded. */
    private static void loadSqlite() {
        try {
            SQLiteJDBCLoader.initialize();
        } catch (Exception | LinkageError e) {
            throw BadInput.because(
                    e,
                    "The diary's database cannot be started from the temporary folder %s; make that folder, with the right to write and to run programs there, or name another one by setting LUNGWORT_JAVA_OPTS=-Djava.io.tmpdir=FOLDER.",
                    System.getProperty("java.io.tmpdir"));
        }
    }

    private static SQLiteConfig config() {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(WAIT_MS);
        config.enforceForeignKeys(true);
        config.setPragma(SQLiteConfig.Pragma.SECURE_DELETE, "true");
        config.setPragma(SQLiteConfig.Pragma.SYNCHRONOUS, "EXTRA");
        return config;
    }

    private void checkAndMigrate() {
        read(c -> {
            Sql.run(c, "pragma trusted_schema = off");
            Schema.refuseWrongFile(c, file);
            String verdict = Sql.first(c, row -> row.getString(1), "pragma quick_check(1)")
                    .orElse("");
            if (!verdict.equals("ok")) {
                throw damaged(file, null);
            }
            return verdict;
        });
        if (read(Schema::version) < Schema.NEWEST) {
            write(c -> {
                Schema.migrate(c);
                return true;
            });
        }
    }

    /** The file. */
    Path file() {
        return file;
    }

    /** Reads in one transaction: what it sees belongs together. */
    <T> T read(Work<T> work) {
        lock.lock();
        try {
            return writing || lock.getHoldCount() > 1 ? work.run(connection) : inTransaction("begin", work);
        } catch (SQLException e) {
            throw sentence(e, file);
        } finally {
            lock.unlock();
        }
    }

    /** Writes in one transaction: all of it or, after any exception, nothing. Within another write it joins that one. */
    <T> T write(Work<T> work) {
        List<Consumer<Boolean>> due = new ArrayList<>();
        boolean committed = false;
        try {
            T result = write(work, due);
            committed = true;
            return result;
        } finally {
            for (Consumer<Boolean> task : due) {
                task.accept(committed);
            }
        }
    }

    /** Has something done once the write that is going on has ended, and told whether it was committed; it may write itself. */
    void afterwards(Consumer<Boolean> task) {
        if (!writing || !lock.isHeldByCurrentThread()) {
            throw new IllegalStateException("no write is going on");
        }
        afterwards.add(task);
    }

    private <T> T write(Work<T> work, List<Consumer<Boolean>> due) {
        lock.lock();
        try {
            if (writing) {
                return work.run(connection);
            }
            if (lock.getHoldCount() > 1) {
                throw new IllegalStateException("a write cannot start inside a read");
            }
            writing = true;
            try {
                return inTransaction("begin immediate", work);
            } finally {
                writing = false;
                due.addAll(afterwards);
                afterwards.clear();
            }
        } catch (SQLException e) {
            throw sentence(e, file);
        } finally {
            lock.unlock();
        }
    }

    /** Rebuilds the file without what was deleted from it; needs as much free space again as the file takes. */
    void compact() {
        lock.lock();
        try {
            Sql.run(connection, "vacuum");
        } catch (SQLException e) {
            throw sentence(e, file);
        } finally {
            lock.unlock();
        }
    }

    private <T> T inTransaction(String begin, Work<T> work) throws SQLException {
        Sql.run(connection, begin);
        boolean committed = false;
        try {
            T result = work.run(connection);
            Sql.run(connection, "commit");
            committed = true;
            return result;
        } finally {
            if (!committed) {
                rollBack();
            }
        }
    }

    private void rollBack() {
        try {
            Sql.run(connection, "rollback");
        } catch (SQLException e) {
            // SQLite has already rolled back by itself, as it does when the disk is full; the first exception tells
            // why.
            return;
        }
    }

    @Override
    public void close() {
        lock.lock();
        try {
            connection.close();
        } catch (SQLException e) {
            throw sentence(e, file);
        } finally {
            lock.unlock();
        }
    }

    private static RuntimeException sentence(SQLException e, Path file) {
        SQLiteErrorCode code =
                e instanceof SQLiteException sqlite ? sqlite.getResultCode() : SQLiteErrorCode.UNKNOWN_ERROR;
        String name = code.name();
        if (name.startsWith("SQLITE_CORRUPT") || name.startsWith("SQLITE_NOTADB")) {
            return damaged(file, e);
        }
        if (name.startsWith("SQLITE_FULL")) {
            return new BadInput(
                    "The disk with the diary %s is full; nothing stored was changed. Make room, then try again."
                            .formatted(file),
                    e);
        }
        if (name.startsWith("SQLITE_BUSY") || name.startsWith("SQLITE_LOCKED")) {
            return new BadInput(
                    "Another Lungwort has been writing to the diary %s for more than %d s; nothing stored was changed. Wait for it to end, then try again."
                            .formatted(file, WAIT_MS / 1000),
                    e);
        }
        if (name.startsWith("SQLITE_READONLY")
                || name.startsWith("SQLITE_CANTOPEN")
                || name.startsWith("SQLITE_PERM")) {
            return new BadInput(
                    "The diary %s cannot be written; check the permissions of the file and its folder.".formatted(file),
                    e);
        }
        if (name.startsWith("SQLITE_IOERR")) {
            return new BadInput(
                    "The disk with the diary %s failed (%s); nothing stored was changed. Check the disk and its free space."
                            .formatted(file, name),
                    e);
        }
        if (name.equals("SQLITE_CONSTRAINT_FOREIGNKEY")) {
            return new BadInput(
                    "The person, round or take that this belongs to is not in the diary (any more); nothing was stored.",
                    e);
        }
        return new IllegalStateException("the diary database answered: " + e.getMessage(), e);
    }

    private static BadInput damaged(Path file, @org.jspecify.annotations.Nullable SQLException e) {
        String sentence =
                "The diary file %s is damaged or not a diary; it was left as it is. Move it away and take back a copy (lungwort diary import ARCHIVE), or name another folder with --diary."
                        .formatted(file);
        return e == null ? new BadInput(sentence) : new BadInput(sentence, e);
    }
}
