package lungwort.diary;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.json.Json;

/** Puts the rows of one diary into another, inside the caller's transaction. Doing it twice changes nothing the second time. */
final class Merge {
    /** The column that says whose a row is: it never changes. */
    private static final Map<String, String> OWNER =
            Map.of("round", "person_id", "take", "round_id", "note", "person_id");

    private final Connection c;
    private final Instant now;
    private final Map<String, Integer> added = new HashMap<>();
    private final List<String> remarks = new ArrayList<>();
    private int changed;

    Merge(Connection c, Instant now) {
        this.c = c;
        this.now = now;
    }

    Archive.Imported merge(Database other, int newRecordings) throws SQLException {
        for (String table : Schema.TABLES) {
            List<ObjectNode> rows =
                    other.read(o -> Sql.list(o, Rows::read, "select * from %s order by rowid".formatted(table)));
            for (ObjectNode row : rows) {
                switch (table) {
                    case "setting" -> setting(row);
                    case "examination", "earlier" -> once(table, row);
                    default -> newer(table, row);
                }
            }
        }
        return new Archive.Imported(
                new Archive.Added(count("person"), count("round"), count("take"), count("examination"), count("note")),
                changed,
                newRecordings,
                remarks);
    }

    private int count(String table) {
        return added.getOrDefault(table, 0);
    }

    /** This computer's own settings stay as they are. */
    private void setting(ObjectNode row) throws SQLException {
        String name = Json.text(row, "name");
        boolean known = Sql.number(c, "select count(*) from setting where name = ?", name) > 0;
        if (!known && !name.equals(Eraser.BEGUN)) {
            Rows.insert(c, "setting", row);
        }
    }

    private void once(String table, ObjectNode row) throws SQLException {
        if (own(table, row).isEmpty() && !remembered(table, row)) {
            Rows.insert(c, table, row);
            added.merge(table, 1, Integer::sum);
        }
    }

    private boolean remembered(String table, ObjectNode row) throws SQLException {
        return table.equals("earlier") && isRemembered(Json.text(row, "row_id"), Json.need(row, "row_json"));
    }

    private boolean isRemembered(String rowId, JsonNode content) throws SQLException {
        return Sql.number(
                        c,
                        "select count(*) from earlier where row_id = ? and row_json = ?",
                        rowId,
                        Json.compact(content))
                > 0;
    }

    private void newer(String table, ObjectNode row) throws SQLException {
        Optional<ObjectNode> own = own(table, row);
        if (own.isEmpty()) {
            Rows.insert(c, table, table.equals("person") ? withFreeNickname(row) : row);
            added.merge(table, 1, Integer::sum);
        } else if (!sameContent(own.get(), row)) {
            settle(table, own.get(), row);
        }
    }

    private void settle(String table, ObjectNode own, ObjectNode row) throws SQLException {
        refuseOtherOwner(table, own, row);
        if (Json.need(row, "changed_at").asLong() > Json.need(own, "changed_at").asLong()) {
            boolean renamed = table.equals("person") && !own.get("nickname").equals(row.get("nickname"));
            Rows.replace(c, table, renamed ? withFreeNickname(row) : row, person(table, own), now);
            changed++;
        } else if (!isRemembered(Json.text(row, "id"), row)) {
            Rows.remember(c, table, row, person(table, own), now);
            changed++;
        }
    }

    private static void refuseOtherOwner(String table, ObjectNode own, ObjectNode row) {
        String owner = OWNER.get(table);
        if (owner != null && !own.get(owner).equals(row.get(owner))) {
            throw new BadInput(
                    "The archive gives a %s of this diary to somebody else; nothing was stored. It is no copy of this diary."
                            .formatted(table));
        }
    }

    private UUID person(String table, ObjectNode own) throws SQLException {
        return switch (table) {
            case "person" -> UUID.fromString(Json.text(own, "id"));
            case "take" ->
                Sql.first(
                                c,
                                r -> Sql.id(r, "person_id"),
                                "select person_id from round where id = ?",
                                Json.text(own, "round_id"))
                        .orElseThrow();
            default -> UUID.fromString(Json.text(own, "person_id"));
        };
    }

    private ObjectNode withFreeNickname(ObjectNode row) throws SQLException {
        String wanted = Json.text(row, "nickname");
        String free = wanted;
        for (int i = 2; taken(free, Json.text(row, "id")); i++) {
            String end = " (%d)".formatted(i);
            free = Nicknames.cut(wanted, Person.MAX_NICKNAME_LENGTH - end.length()) + end;
        }
        if (!free.equals(wanted)) {
            remarks.add("Somebody else here is already called %s, so the one from the archive is now called %s."
                    .formatted(wanted, free));
        }
        return row.deepCopy().put("nickname", free);
    }

    private boolean taken(String nickname, String byOtherThan) throws SQLException {
        String read = Nicknames.read(nickname);
        return Sql.list(c, row -> row.getString("nickname"), "select nickname from person where id <> ?", byOtherThan)
                .stream()
                .anyMatch(other -> Nicknames.read(other).equals(read));
    }

    private Optional<ObjectNode> own(String table, ObjectNode row) throws SQLException {
        return Sql.first(c, Rows::read, "select * from %s where id = ?".formatted(table), Json.text(row, "id"));
    }

    private static boolean sameContent(ObjectNode a, ObjectNode b) {
        ObjectNode x = a.deepCopy();
        ObjectNode y = b.deepCopy();
        x.remove("changed_at");
        y.remove("changed_at");
        return x.equals(y);
    }
}
