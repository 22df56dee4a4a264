package lungwort.diary;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;

/** Whole rows of any table as JSON objects, key for column: what archives hold and what is kept of a row before it changes. */
final class Rows {
    private static final String JSON_COLUMN = "_json";

    private Rows() {}

    /** The row a result set stands on; text in columns named {@code *_json} becomes a tree. */
    static ObjectNode read(ResultSet row) throws SQLException {
        ObjectNode node = Json.object();
        ResultSetMetaData columns = row.getMetaData();
        for (int i = 1; i <= columns.getColumnCount(); i++) {
            String name = columns.getColumnName(i);
            Object value = row.getObject(i);
            if (value == null) {
                node.putNull(name);
            } else if (value instanceof Number number) {
                node.put(name, number.longValue());
            } else if (name.endsWith(JSON_COLUMN)) {
                node.set(name, Json.parse(value.toString(), "a stored " + name));
            } else {
                node.put(name, value.toString());
            }
        }
        return node;
    }

    /**
     * Inserts a row.
     *
     * @throws BadInput if it has a column the table does not have, or a value of no possible type
     */
    static void insert(Connection c, String table, JsonNode row) throws SQLException {
        List<String> columns = columns(c, table);
        List<String> names = new ArrayList<>();
        List<@Nullable Object> values = new ArrayList<>();
        for (var field : row.properties()) {
            if (!columns.contains(field.getKey())) {
                throw new BadInput("the table %s has no column %s".formatted(table, field.getKey()));
            }
            names.add(field.getKey());
            values.add(value(field.getKey(), field.getValue()));
        }
        String sql = "insert into %s (%s) values (%s)"
                .formatted(table, String.join(", ", names), String.join(", ", Collections.nCopies(names.size(), "?")));
        Sql.update(c, sql, values.toArray());
    }

    /** Replaces the row with the same id, after its old content was remembered. */
    static void replace(Connection c, String table, JsonNode row, UUID person, Instant now) throws SQLException {
        UUID id = UUID.fromString(Json.text(row, "id"));
        remember(c, table, id, person, now);
        List<String> sets = new ArrayList<>();
        List<@Nullable Object> values = new ArrayList<>();
        for (var field : row.properties()) {
            sets.add(field.getKey() + " = ?");
            values.add(value(field.getKey(), field.getValue()));
        }
        values.add(id);
        Sql.update(c, "update %s set %s where id = ?".formatted(table, String.join(", ", sets)), values.toArray());
    }

    /** Keeps what a row holds, before it is changed. */
    static void remember(Connection c, String table, UUID id, UUID person, Instant now) throws SQLException {
        ObjectNode row = Sql.first(c, Rows::read, "select * from %s where id = ?".formatted(table), id)
                .orElseThrow(() -> new IllegalStateException("no %s has the id %s".formatted(table, id)));
        remember(c, table, row, person, now);
    }

    /** Keeps another version of a row, such as the older one of two that meet in a merge. */
    static void remember(Connection c, String table, JsonNode row, UUID person, Instant now) throws SQLException {
        Sql.update(
                c,
                "insert into earlier (id, person_id, table_name, row_id, replaced_at, row_json) values (?, ?, ?, ?, ?, ?)",
                UUID.randomUUID(),
                person,
                table,
                Json.text(row, "id"),
                now,
                Json.compact(row));
    }

    /** The names of a table's columns. */
    static List<String> columns(Connection c, String table) throws SQLException {
        return Sql.list(c, row -> row.getString("name"), "select name from pragma_table_info(?)", table);
    }

    private static @Nullable Object value(String column, JsonNode value) {
        if (value.isNull()) {
            return null;
        }
        if (column.endsWith(JSON_COLUMN)) {
            return Json.compact(value);
        }
        if (value.isTextual()) {
            return value.asText();
        }
        if (value.isIntegralNumber() && value.canConvertToLong()) {
            return value.asLong();
        }
        throw new BadInput("the column %s cannot hold %s".formatted(column, value));
    }
}
