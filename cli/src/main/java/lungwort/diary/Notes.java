package lungwort.diary;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/** The notes of a diary. */
public final class Notes {
    private final Database database;
    private final Clock clock;

    Notes(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /**
     * Writes a note.
     *
     * @param roundId the round it belongs to, or null
     * @throws BadInput if the words are empty or too long
     */
    public Note add(UUID personId, @Nullable UUID roundId, String words) {
        String checked = Words.check(words, "the note", 1, Words.MAX_LENGTH);
        OffsetDateTime now = OffsetDateTime.now(clock).truncatedTo(java.time.temporal.ChronoUnit.MILLIS);
        Note note = new Note(UUID.randomUUID(), personId, roundId, now, checked);
        database.write(c -> Sql.update(
                c,
                "insert into note (id, person_id, round_id, written_at, written_offset, words, changed_at) values (?, ?, ?, ?, ?, ?, ?)",
                note.id(),
                personId,
                roundId,
                now.toInstant(),
                now.getOffset().getTotalSeconds(),
                checked,
                now.toInstant()));
        return note;
    }

    /** Changes the words of a note; what it said before is kept until the person is erased. */
    public void change(UUID noteId, String words) {
        String checked = Words.check(words, "the note", 1, Words.MAX_LENGTH);
        database.write(c -> {
            UUID person = personOf(noteId);
            Instant now = clock.instant();
            Rows.remember(c, "note", noteId, person, now);
            return Sql.update(c, "update note set words = ?, changed_at = ? where id = ?", checked, now, noteId);
        });
    }

    /** Deletes a note and what it said before. */
    public void delete(UUID noteId) {
        database.write(c -> {
            Sql.update(c, "delete from earlier where row_id = ?", noteId);
            return Sql.update(c, "delete from note where id = ?", noteId);
        });
    }

    /** All notes of a person in order of time. */
    public List<Note> ofPerson(UUID personId) {
        return database.read(c ->
                Sql.list(c, Notes::note, "select * from note where person_id = ? order by written_at, id", personId));
    }

    /** The notes of a round in order of time. */
    public List<Note> ofRound(UUID roundId) {
        return database.read(c ->
                Sql.list(c, Notes::note, "select * from note where round_id = ? order by written_at, id", roundId));
    }

    private UUID personOf(UUID noteId) {
        return database.read(c -> Sql.first(
                        c, row -> Sql.id(row, "person_id"), "select person_id from note where id = ?", noteId))
                .orElseThrow(() -> new BadInput("There is no note %s in this diary.".formatted(noteId)));
    }

    private static Note note(ResultSet row) throws SQLException {
        String round = row.getString("round_id");
        return new Note(
                Sql.id(row, "id"),
                Sql.id(row, "person_id"),
                round == null ? null : UUID.fromString(round),
                Sql.time(row, "written"),
                row.getString("words"));
    }
}
