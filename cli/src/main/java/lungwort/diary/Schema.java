package lungwort.diary;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import lungwort.BadInput;

/** The numbered steps that bring a diary file to the newest schema: {@code schema-N.sql} leads from N - 1 to N. */
final class Schema {
    /** The schema this version writes. A new step: add {@code schema-N.sql} and raise this number. */
    static final int NEWEST = 4;

    /** Tables in an order in which each stands after those it refers to. */
    static final List<String> TABLES = List.of("person", "round", "take", "examination", "note", "earlier", "setting");

    private Schema() {}

    /** The schema of an open file; 0 for an empty one. */
    static int version(Connection c) throws SQLException {
        return (int) Sql.number(c, "pragma user_version");
    }

    /** @throws BadInput if the file belongs to another program or to a newer Lungwort */
    static void refuseWrongFile(Connection c, Path file) throws SQLException {
        long application = Sql.number(c, "pragma application_id");
        boolean empty = Sql.number(c, "select count(*) from sqlite_master") == 0;
        if (application != Database.APPLICATION_ID && !(empty && application == 0)) {
            throw new BadInput(
                    "%s is another program's SQLite file, not a diary; it was left as it is. Name another folder with --diary."
                            .formatted(file));
        }
        int version = version(c);
        if (version > NEWEST) {
            throw new BadInput(
                    "The diary %s was written by a newer Lungwort (schema %d; this one knows up to %d); it was left as it is. Install the newer Lungwort to open it."
                            .formatted(file, version, NEWEST));
        }
    }

    /** Runs the steps that are missing, inside the caller's transaction: another process may have been first. */
    static void migrate(Connection c) throws SQLException {
        migrate(c, NEWEST);
    }

    /** The same up to a schema, which tests choose. */
    static void migrate(Connection c, int last) throws SQLException {
        for (int step = version(c) + 1; step <= last; step++) {
            for (String statement : statements(step)) {
                Sql.run(c, statement);
            }
            Sql.run(c, "pragma application_id = " + Database.APPLICATION_ID);
            Sql.run(c, "pragma user_version = " + step);
        }
    }

    /** The statements of a step: each ends with a semicolon at the end of a line. */
    private static List<String> statements(int step) {
        String name = "schema-" + step + ".sql";
        try (InputStream in = Schema.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException(name + " is not in the program");
            }
            List<String> statements = new ArrayList<>();
            for (String part : new String(in.readAllBytes(), StandardCharsets.UTF_8).split(";\\R", -1)) {
                if (!part.isBlank()) {
                    statements.add(part);
                }
            }
            return statements;
        } catch (IOException e) {
            throw new IllegalStateException(name + " cannot be read", e);
        }
    }
}
