package lungwort.diary;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Short ways to ask and to tell the database. */
final class Sql {
    /** Turns the row a result set stands on into a value. */
    interface RowMapper<T> {
        T map(ResultSet row) throws SQLException;
    }

    private Sql() {}

    /** All rows of a query, in its order. */
    static <T> List<T> list(Connection c, RowMapper<T> mapper, String sql, @Nullable Object... arguments)
            throws SQLException {
        try (PreparedStatement statement = prepare(c, sql, arguments);
                ResultSet rows = statement.executeQuery()) {
            List<T> found = new ArrayList<>();
            while (rows.next()) {
                found.add(mapper.map(rows));
            }
            return found;
        }
    }

    /** The first row of a query. */
    static <T> Optional<T> first(Connection c, RowMapper<T> mapper, String sql, @Nullable Object... arguments)
            throws SQLException {
        List<T> found = list(c, mapper, sql, arguments);
        return found.isEmpty() ? Optional.empty() : Optional.of(found.get(0));
    }

    /** Runs a change; returns how many rows it touched. */
    static int update(Connection c, String sql, @Nullable Object... arguments) throws SQLException {
        try (PreparedStatement statement = prepare(c, sql, arguments)) {
            return statement.executeUpdate();
        }
    }

    /** Runs one statement without arguments, such as a pragma. */
    static void run(Connection c, String sql) throws SQLException {
        try (var statement = c.createStatement()) {
            statement.execute(sql);
        }
    }

    /** The whole number a pragma or a count returns. */
    static long number(Connection c, String sql, @Nullable Object... arguments) throws SQLException {
        return first(c, row -> row.getLong(1), sql, arguments).orElse(0L);
    }

    /** The id in a column. */
    static UUID id(ResultSet row, String column) throws SQLException {
        return UUID.fromString(row.getString(column));
    }

    /** The time in the columns {@code name_at} and {@code name_offset}. */
    static OffsetDateTime time(ResultSet row, String name) throws SQLException {
        ZoneOffset offset = ZoneOffset.ofTotalSeconds(row.getInt(name + "_offset"));
        return Instant.ofEpochMilli(row.getLong(name + "_at")).atOffset(offset);
    }

    private static PreparedStatement prepare(Connection c, String sql, @Nullable Object... arguments)
            throws SQLException {
        PreparedStatement statement = c.prepareStatement(sql);
        try {
            for (int i = 0; i < arguments.length; i++) {
                statement.setObject(i + 1, stored(arguments[i]));
            }
            return statement;
        } catch (SQLException e) {
            statement.close();
            throw e;
        }
    }

    private static @Nullable Object stored(@Nullable Object argument) {
        if (argument instanceof UUID id) {
            return id.toString();
        }
        return argument instanceof Instant instant ? (Object) instant.toEpochMilli() : argument;
    }
}
