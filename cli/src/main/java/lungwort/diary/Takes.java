package lungwort.diary;

import java.io.InputStream;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.LungwortVersion;
import lungwort.diary.RecordingStore.Incoming;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.json.ExaminationJson;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;

/** The takes of a diary, with their recordings and examinations. */
public final class Takes {
    private static final String NOT_JUDGED = "{}";
    private static final String MEASURED =
            "select take.round_id, take.site, newest.id, newest.examined_at, newest.examined_offset, newest.lungwort_version, newest.measures_json,"
                    + " case when newest.measures_json is null then newest.examination_json end as examination_json"
                    + " from take join round on round.id = take.round_id join examination newest on newest.rowid ="
                    + " (select rowid from examination where take_id = take.id order by examined_at desc, rowid desc limit 1)"
                    + " where round.person_id = ? and round.started_at between ? and ?"
                    + " order by round.started_at, round.id, take.recorded_at, take.id";

    private final Database database;
    private final RecordingStore recordings;
    private final Clock clock;

    Takes(Database database, RecordingStore recordings, Clock clock) {
        this.database = database;
        this.recordings = recordings;
        this.clock = clock;
    }

    /**
     * Stores a recording as a take that is still to be examined. Once this returns, the bytes are on the disk to stay.
     *
     * @param recording the bytes of the file as it came; read to the end, not closed
     * @throws BadInput if the recording is empty or too long, the round is missing, or the disk is full; then nothing is stored
     */
    public Take add(NewTake take, InputStream recording) {
        Incoming incoming = recordings.receive(recording, take.fileName());
        boolean kept = false;
        try {
            Take added = database.write(c -> insert(c, take, incoming));
            kept = true;
            return added;
        } finally {
            if (!kept) {
                recordings.drop(incoming);
            }
        }
    }

    private Take insert(Connection c, NewTake take, Incoming incoming) throws SQLException {
        if (Sql.number(c, "select count(*) from round where id = ?", take.roundId()) == 0) {
            throw new BadInput("There is no round %s in this diary.".formatted(take.roundId()));
        }
        OffsetDateTime now = later(c, take.roundId(), OffsetDateTime.now(clock).truncatedTo(ChronoUnit.MILLIS));
        Take added = new Take(
                UUID.randomUUID(),
                take.roundId(),
                take.site(),
                take.reason(),
                now,
                incoming.hash(),
                take.fileName(),
                take.breathHeard(),
                take.knownToClinician(),
                null,
                null);
        Sql.update(
                c,
                "insert into take (id, round_id, site, reason, recorded_at, recorded_offset, recording_sha256, file_name, breath_heard, known_to_clinician, changed_at)"
                        + " values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                added.id(),
                added.roundId(),
                added.site().id(),
                added.reason().id(),
                now.toInstant(),
                now.getOffset().getTotalSeconds(),
                added.recordingSha256(),
                added.fileName(),
                number(added.breathHeard()),
                added.knownToClinician() ? 1 : 0,
                now.toInstant());
        new Keeper(database, recordings).keep(incoming);
        return added;
    }

    /** Takes of a round keep the order in which they were added, also within one millisecond or after a clock was set back. */
    private static OffsetDateTime later(Connection c, UUID roundId, OffsetDateTime now) throws SQLException {
        long last = Sql.number(c, "select coalesce(max(recorded_at), 0) from take where round_id = ?", roundId);
        return last < now.toInstant().toEpochMilli()
                ? now
                : Instant.ofEpochMilli(last + 1).atOffset(now.getOffset());
    }

    /** Stores an examination of a take; those made before are kept, the newest counts. */
    public Examined examined(UUID takeId, Examination examination) {
        OffsetDateTime now = OffsetDateTime.now(clock).truncatedTo(ChronoUnit.MILLIS);
        Examined examined = new Examined(UUID.randomUUID(), now, examination, LungwortVersion.CURRENT);
        database.write(c -> {
            get(takeId);
            return Sql.update(
                    c,
                    "insert into examination (id, take_id, examined_at, examined_offset, model, lungwort_version, examination_json, measures_json)"
                            + " values (?, ?, ?, ?, ?, ?, ?, ?)",
                    examined.id(),
                    takeId,
                    now.toInstant(),
                    now.getOffset().getTotalSeconds(),
                    examination.model(),
                    examined.lungwortVersion(),
                    Json.compact(ExaminationJson.toJson(examination)),
                    measures(examination));
        });
        return examined;
    }

    /** Changes what the person who listened said about a take; a finished round is open again if that is something else. */
    public void change(UUID takeId, TakeReason reason, @Nullable Boolean breathHeard, boolean knownToClinician) {
        database.write(c -> {
            Take take = get(takeId);
            Instant now = clock.instant();
            Rows.remember(c, "take", takeId, personOf(c, take), now);
            if (take.reason() != reason
                    || !Objects.equals(take.breathHeard(), breathHeard)
                    || take.knownToClinician() != knownToClinician) {
                Rounds.reopen(c, take.roundId(), personOf(c, take), now);
            }
            return Sql.update(
                    c,
                    "update take set reason = ?, breath_heard = ?, known_to_clinician = ?, changed_at = ? where id = ?",
                    reason.id(),
                    number(breathHeard),
                    knownToClinician ? 1 : 0,
                    now,
                    takeId);
        });
    }

    /** Says whether the breathing stopped by itself where a take holds a stretch without a breath; null takes the answer back. A finished round is open again if that is something else. */
    public void sayBreathingStopped(UUID takeId, @Nullable Boolean stopped) {
        database.write(c -> {
            Take take = get(takeId);
            Instant now = clock.instant();
            Rows.remember(c, "take", takeId, personOf(c, take), now);
            if (!Objects.equals(take.breathingStopped(), stopped)) {
                Rounds.reopen(c, take.roundId(), personOf(c, take), now);
            }
            return Sql.update(
                    c,
                    "update take set breathing_stopped = ?, changed_at = ? where id = ?",
                    number(stopped),
                    now,
                    takeId);
        });
    }

    private static UUID personOf(Connection c, Take take) throws SQLException {
        return Sql.first(c, row -> Sql.id(row, "person_id"), "select person_id from round where id = ?", take.roundId())
                .orElseThrow();
    }

    /** @throws BadInput if there is no take with that id */
    public Take get(UUID id) {
        return database.read(c -> Sql.first(c, row -> take(c, row), "select * from take where id = ?", id))
                .orElseThrow(() -> new BadInput("There is no take %s in this diary.".formatted(id)));
    }

    /** The takes of a round in the order in which they were added. */
    public List<Take> ofRound(UUID roundId) {
        return database.read(c -> Sql.list(
                c, row -> take(c, row), "select * from take where round_id = ? order by recorded_at, id", roundId));
    }

    /** All takes of a person in order of rounds and time. */
    public List<Take> ofPerson(UUID personId) {
        return database.read(c -> Sql.list(
                c,
                row -> take(c, row),
                "select take.* from take join round on round.id = take.round_id where round.person_id = ?"
                        + " order by round.started_at, round.id, take.recorded_at, take.id",
                personId));
    }

    /** The newest take of a person in another round that holds this very recording. */
    public Optional<Take> elsewhere(UUID personId, UUID roundId, String recordingSha256) {
        return database.read(c -> Sql.first(
                c,
                row -> take(c, row),
                "select take.* from take join round on round.id = take.round_id where round.person_id = ? and round.id <> ? and take.recording_sha256 = ?"
                        + " order by round.started_at desc, take.id limit 1",
                personId,
                roundId,
                recordingSha256));
    }

    /**
     * The take of a person whose id begins with these characters, for a command line.
     *
     * @throws BadInput if none does, or several do
     */
    public Take byPrefix(UUID personId, String prefix) {
        String wanted = prefix.strip().toLowerCase(Locale.ROOT);
        List<Take> found = !wanted.matches("[0-9a-f-]{4,36}")
                ? List.of()
                : database.read(c -> Sql.list(
                        c,
                        row -> take(c, row),
                        "select take.* from take join round on round.id = take.round_id where round.person_id = ? and take.id like ? limit 2",
                        personId,
                        wanted + "%"));
        if (found.size() != 1) {
            throw new BadInput(
                    "%s take of this person has an id that begins with \"%s\"; give at least four characters, as `lungwort diary show` prints them."
                            .formatted(found.isEmpty() ? "No" : "More than one", prefix));
        }
        return found.get(0);
    }

    /** All examinations of a take, oldest first. */
    public List<Examined> examinations(UUID takeId) {
        return database.read(c -> Sql.list(
                c, Takes::examined, "select * from examination where take_id = ? order by examined_at, rowid", takeId));
    }

    /**
     * An empty object for one that could not be judged: it has no numbers to follow. One in which nothing stands out keeps its numbers. They say how much stood out, found alike in one recording after
     * another that sounds so; without them somebody whose device always sounds so would have no days to compare, and what begins to stand out would not be seen as new.
     */
    private static String measures(Examination examination) {
        return examination.suggestion() == Suggestion.CANNOT_TELL
                ? NOT_JUDGED
                : Json.compact(Measured.toJson(examination));
    }

    /** The numbers of all judged takes of a person in rounds that began in a span of time, in order of rounds and takes. */
    List<Measured> measured(UUID personId, Instant from, Instant to) {
        return database.read(c -> {
            List<Measured> found = new ArrayList<>();
            Sql.list(
                    c,
                    row -> {
                        Measured measured = measured(row);
                        return measured != null && found.add(measured);
                    },
                    MEASURED,
                    personId,
                    from,
                    to);
            return found;
        });
    }

    private static @Nullable Measured measured(ResultSet row) throws SQLException {
        String kept = row.getString("measures_json");
        if (kept == null) {
            Examination examination = examined(row).examination();
            kept = measures(examination);
        }
        return kept.equals(NOT_JUDGED)
                ? null
                : Measured.of(
                        Sql.id(row, "round_id"), Sites.of(row.getString("site")), Json.parse(kept, "stored measures"));
    }

    private static Take take(Connection c, ResultSet row) throws SQLException {
        UUID id = Sql.id(row, "id");
        return new Take(
                id,
                Sql.id(row, "round_id"),
                Sites.of(row.getString("site")),
                TakeReason.ofId(row.getString("reason")),
                Sql.time(row, "recorded"),
                row.getString("recording_sha256"),
                row.getString("file_name"),
                truth(row, "breath_heard"),
                row.getInt("known_to_clinician") != 0,
                truth(row, "breathing_stopped"),
                newest(c, id));
    }

    /** The newest examination. One that this version cannot read counts as not made: the take is examined anew, and the diary stays readable. */
    private static @Nullable Examined newest(Connection c, UUID takeId) throws SQLException {
        try {
            return Sql.first(
                            c,
                            Takes::examined,
                            "select * from examination where take_id = ? order by examined_at desc, rowid desc limit 1",
                            takeId)
                    .orElse(null);
        } catch (BadInput e) {
            return null;
        }
    }

    private static Examined examined(ResultSet row) throws SQLException {
        return new Examined(
                Sql.id(row, "id"),
                Sql.time(row, "examined"),
                ExaminationJson.fromJson(Json.parse(row.getString("examination_json"), "a stored examination")),
                row.getString("lungwort_version"));
    }

    private static @Nullable Integer number(@Nullable Boolean truth) {
        return truth == null ? null : (Integer) (truth ? 1 : 0);
    }

    private static @Nullable Boolean truth(ResultSet row, String column) throws SQLException {
        int value = row.getInt(column);
        return row.wasNull() ? null : (Boolean) (value != 0);
    }
}
