package lungwort.diary;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.guidance.NextStep;
import lungwort.json.GuidanceJson;
import lungwort.json.Json;
import lungwort.json.NextStepJson;
import org.jspecify.annotations.Nullable;

/** The rounds of a diary. */
public final class Rounds {
    /** Those that a clock dated ahead of the instant that is given come last. */
    private static final String NEWEST_FIRST = " order by started_at > ?, started_at desc, id";

    private static final String COLUMNS =
            "person_id, started_at, started_offset, finished_at, danger_signs_json, vitals_json, symptoms_json, symptom_words, medicines, next_step_json, changed_at, id";

    private final Database database;
    private final Clock clock;

    Rounds(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /** Begins a round now, with nothing asked yet. */
    public Round start(UUID personId) {
        return start(personId, OffsetDateTime.now(clock));
    }

    /**
     * Begins a round at another time, such as when files of yesterday are added.
     *
     * @throws BadInput if the time lies in the future
     */
    public Round start(UUID personId, OffsetDateTime startedAt) {
        if (startedAt.toInstant().isAfter(clock.instant().plusSeconds(60))) {
            throw new BadInput("A round cannot begin in the future (%s); check the date.".formatted(startedAt));
        }
        // Milliseconds are what is stored: the value returned equals the value read later.
        Round round = Round.begin(personId, startedAt.truncatedTo(java.time.temporal.ChronoUnit.MILLIS));
        database.write(c -> Sql.update(
                c,
                "insert into round (%s) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)".formatted(COLUMNS),
                columns(round, clock.instant())));
        return round;
    }

    /**
     * Takes back a round in which nothing stands: it was begun for recordings of which none could be stored, and would be the one that is gone on with, finished or reported.
     *
     * @return false if anything stands in it, or stood in it, or there is no such round; it is left then
     */
    public boolean takeBackIfEmpty(UUID id) {
        return database.write(c -> {
            boolean unanswered = Sql.first(c, Rounds::round, "select * from round where id = ?", id)
                    .filter(Round::unanswered)
                    .isPresent();
            long held = Sql.number(
                    c,
                    "select (select count(*) from take where round_id = ?) + (select count(*) from note where round_id = ?)"
                            + " + (select count(*) from earlier where table_name = 'round' and row_id = ?)",
                    id,
                    id,
                    id);
            return unanswered && held == 0 && Sql.update(c, "delete from round where id = ?", id) > 0;
        });
    }

    /**
     * Stores what was changed about a round; what it held before is kept until it is erased. A finished round with other answers is open again: what was said at its end was said without them.
     */
    public void change(Round changed) {
        database.write(c -> {
            Round before = get(changed.id());
            Round round = before.open() || changed.sameAnswers(before) ? changed : changed.reopened();
            Instant now = clock.instant();
            Rows.remember(c, "round", round.id(), round.personId(), now);
            return Sql.update(
                    c,
                    "update round set (%s) = (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) where id = ?"
                            .formatted(COLUMNS.replace(", id", "")),
                    columns(round, now));
        });
    }

    /** Opens a finished round, because something else is said of one of its takes. */
    static void reopen(Connection c, UUID id, UUID person, Instant now) throws SQLException {
        boolean finished = Sql.first(
                        c,
                        row -> row.getString("id"),
                        "select id from round where id = ? and finished_at is not null",
                        id)
                .isPresent();
        if (finished) {
            Rows.remember(c, "round", id, person, now);
            Sql.update(
                    c,
                    "update round set finished_at = null, next_step_json = null, changed_at = ? where id = ?",
                    now,
                    id);
        }
    }

    /** When a round was last finished, even if it is open again since then; empty if it never was. */
    public Optional<Instant> lastFinished(UUID id) {
        long at = database.read(c -> Sql.number(
                c,
                "select coalesce(max(at), 0) from (select finished_at as at from round where id = ? union all select json_extract(row_json, '$.finished_at') from earlier where table_name = 'round' and row_id = ?)",
                id,
                id));
        return at == 0 ? Optional.empty() : Optional.of(Instant.ofEpochMilli(at));
    }

    /** True if there is a round with that id. */
    public boolean has(UUID id) {
        return database.read(c -> Sql.number(c, "select count(*) from round where id = ?", id)) > 0;
    }

    /** @throws BadInput if there is no round with that id */
    public Round get(UUID id) {
        return database.read(c -> Sql.first(c, Rounds::round, "select * from round where id = ?", id))
                .orElseThrow(() -> new BadInput("There is no round %s in this diary.".formatted(id)));
    }

    /** All rounds of a person in order of time. */
    public List<Round> ofPerson(UUID personId) {
        return database.read(c -> Sql.list(
                c, Rounds::round, "select * from round where person_id = ? order by started_at, id", personId));
    }

    /** The rounds of a person that began on these days of local time, both included, in order of time. */
    public List<Round> ofPerson(UUID personId, LocalDate first, LocalDate last) {
        return ofPerson(personId).stream()
                .filter(r -> !r.day().isBefore(first) && !r.day().isAfter(last))
                .toList();
    }

    /** The newest round of a person. One that a clock dated ahead of time counts as newest only where there is no other: it would stand before those that are made now until its day comes. */
    public Optional<Round> newest(UUID personId) {
        return database.read(c -> Sql.first(
                c,
                Rounds::round,
                "select * from round where person_id = ?" + NEWEST_FIRST + " limit 1",
                personId,
                clock.instant()));
    }

    /** All rounds of a person, the newest first, as {@link #newest}: those that a clock dated ahead of time come last. */
    public List<Round> newestFirst(UUID personId) {
        return database.read(c -> Sql.list(
                c, Rounds::round, "select * from round where person_id = ?" + NEWEST_FIRST, personId, clock.instant()));
    }

    /** The newest round of a person that is finished, as {@link #newest}: what it said is kept. */
    public Optional<Round> newestFinished(UUID personId) {
        return database.read(c -> Sql.first(
                c,
                Rounds::round,
                "select * from round where person_id = ? and finished_at is not null" + NEWEST_FIRST + " limit 1",
                personId,
                clock.instant()));
    }

    /** The newest round of a person that is not finished, as {@link #newest}. */
    public Optional<Round> open(UUID personId) {
        return database.read(c -> Sql.first(
                c,
                Rounds::round,
                "select * from round where person_id = ? and finished_at is null" + NEWEST_FIRST + " limit 1",
                personId,
                clock.instant()));
    }

    /**
     * The round whose id begins with these characters, for a command line.
     *
     * @throws BadInput if none does, or several do
     */
    public Round byPrefix(String prefix) {
        String wanted = prefix.strip().toLowerCase(java.util.Locale.ROOT);
        if (!wanted.matches("[0-9a-f-]{4,36}")) {
            throw new BadInput(
                    "\"%s\" is not a round; give at least the first four characters of its id, as `lungwort diary show` prints it."
                            .formatted(prefix));
        }
        List<Round> found = database.read(c ->
                Sql.list(c, Rounds::round, "select * from round where id like ? order by id limit 2", wanted + "%"));
        if (found.size() != 1) {
            throw new BadInput(
                    "%s round in this diary has an id that begins with %s; `lungwort diary show` prints them."
                            .formatted(found.isEmpty() ? "No" : "More than one", wanted));
        }
        return found.get(0);
    }

    private static @Nullable Object[] columns(Round round, Instant now) {
        NextStep step = round.nextStep();
        return new @Nullable Object[] {
            round.personId(),
            round.startedAt().toInstant(),
            round.startedAt().getOffset().getTotalSeconds(),
            round.finishedAt(),
            Json.compact(GuidanceJson.toJson(round.dangerSigns())),
            Json.compact(GuidanceJson.toJson(round.vitals())),
            Json.compact(GuidanceJson.toJson(round.symptoms())),
            round.symptomWords(),
            round.medicines(),
            step == null ? null : Json.compact(NextStepJson.toJson(step)),
            now,
            round.id()
        };
    }

    private static Round round(ResultSet row) throws SQLException {
        long finished = row.getLong("finished_at");
        boolean open = row.wasNull();
        String step = row.getString("next_step_json");
        return new Round(
                Sql.id(row, "id"),
                Sql.id(row, "person_id"),
                Sql.time(row, "started"),
                open ? null : Instant.ofEpochMilli(finished),
                GuidanceJson.dangerAnswers(Json.parse(row.getString("danger_signs_json"), "the stored danger signs")),
                GuidanceJson.vitals(Json.parse(row.getString("vitals_json"), "the stored vitals")),
                GuidanceJson.symptoms(Json.parse(row.getString("symptoms_json"), "the stored symptoms")),
                row.getString("symptom_words"),
                row.getString("medicines"),
                step == null ? null : NextStepJson.fromJson(Json.parse(step, "the stored next step")));
    }
}
