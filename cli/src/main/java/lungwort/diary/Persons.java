package lungwort.diary;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.guidance.Age;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Conditions;
import lungwort.json.GuidanceJson;
import lungwort.json.Json;

/** The persons of a diary. */
public final class Persons {
    /** A usual SpO2 in % below it is a slip of the hand, as 39 for 93: even a heart defect that leaves the lips blue for good lets it lie higher. Common practice. */
    private static final int LOWEST_USUAL_SPO2_PERCENT = 60;

    private final Database database;
    private final Clock clock;

    Persons(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /**
     * Adds a person.
     *
     * @throws BadInput if the nickname is taken, the birth month lies in the future or over 120 years ago, a clinician's limits or usual were set in the future, or that usual is too low to be one
     */
    public Person add(
            String nickname, YearMonth birthMonth, Conditions conditions, String about, ClinicianLimits limits) {
        Person person = new Person(UUID.randomUUID(), nickname, birthMonth, conditions, about, limits);
        check(person);
        Nicknames.check(person.nickname());
        database.write(c -> {
            refuseTaken(c, person);
            return Sql.update(
                    c,
                    "insert into person (nickname, birth_month, conditions_json, about, limits_json, changed_at, id) values (?, ?, ?, ?, ?, ?, ?)",
                    columns(person, clock.instant()));
        });
        return person;
    }

    /**
     * Stores what was changed about a person; what was known before is kept until the person is erased.
     *
     * @throws BadInput if there is no such person, or another has that nickname
     */
    public void change(Person person) {
        check(person);
        database.write(c -> {
            if (!get(person.id()).nickname().equals(person.nickname())) {
                Nicknames.check(person.nickname());
                refuseTaken(c, person);
            }
            Instant now = clock.instant();
            Rows.remember(c, "person", person.id(), person.id(), now);
            return Sql.update(
                    c,
                    "update person set nickname = ?, birth_month = ?, conditions_json = ?, about = ?, limits_json = ?, changed_at = ? where id = ?",
                    columns(person, now));
        });
    }

    /** All persons by nickname. */
    public List<Person> all() {
        return database.read(
                c -> Sql.list(c, Persons::person, "select * from person order by nickname collate nocase"));
    }

    /**
     * The person with that nickname, without regard to case, to how an accent is coded (one character or two), and to what cannot be seen. Where an older diary holds two who differ in nothing else, only the
     * one that is written so is found.
     */
    public Optional<Person> find(String nickname) {
        return database.read(c -> {
            Optional<Person> written = Sql.first(
                    c, Persons::person, "select * from person where nickname = ? collate nocase", nickname.strip());
            List<Person> alike = written.isPresent() ? List.of() : alike(c, nickname);
            return alike.size() == 1 ? Optional.of(alike.get(0)) : written;
        });
    }

    /** Those whose nickname a reader would take for this one. */
    private static List<Person> alike(Connection c, String nickname) throws SQLException {
        String read = Nicknames.read(nickname);
        return Sql.list(c, Persons::person, "select * from person order by nickname collate nocase, id").stream()
                .filter(person -> Nicknames.read(person.nickname()).equals(read))
                .toList();
    }

    /** @throws BadInput if nobody has that nickname; names those there are */
    public Person need(String nickname) {
        return find(nickname).orElseThrow(() -> {
            String known = all().stream().map(Person::nickname).collect(Collectors.joining(", "));
            return new BadInput("Nobody in this diary is called \"%s\"; %s."
                    .formatted(
                            nickname,
                            known.isEmpty()
                                    ? "add the person first: lungwort diary person add NICKNAME --born YYYY-MM"
                                    : "it knows " + known));
        });
    }

    /** @throws BadInput if there is no person with that id */
    public Person get(UUID id) {
        return database.read(c -> Sql.first(c, Persons::person, "select * from person where id = ?", id))
                .orElseThrow(() -> new BadInput("There is no person %s in this diary.".formatted(id)));
    }

    private void check(Person person) {
        // Throws where the birth month is not possible.
        LocalDate today = LocalDate.now(clock);
        // What was typed is wrong here, not the clock.
        Age unused = Age.on(today, person.birthMonth());
        String setOn = person.limits().setOn().strip();
        if (afterToday(setOn, today)) {
            throw new BadInput(
                    "limits of a clinician: they cannot have been set on %s, which is after today; check the date."
                            .formatted(setOn));
        }
        StatedUsual usual = person.limits().usualSpo2();
        if (usual != null) {
            check(usual, person.birthMonth().atDay(1), today);
        }
    }

    /** What was written in other words than a day is left as it is. */
    private static boolean afterToday(String written, LocalDate today) {
        return written.matches("\\d{4}-\\d{2}-\\d{2}") && written.compareTo(today.toString()) > 0;
    }

    private static void check(StatedUsual usual, LocalDate born, LocalDate today) {
        if (afterToday(usual.setOn().strip(), today)) {
            throw new BadInput("usual SpO2: it cannot have been stated on %s, which is after today; check the date."
                    .formatted(usual.setOn().strip()));
        }
        if (usual.percent() < LOWEST_USUAL_SPO2_PERCENT) {
            throw new BadInput("usual SpO2: %d %% is too low to be usual for anybody; check the number."
                    .formatted(usual.percent()));
        }
        if (usual.on().isBefore(born) || usual.on().isAfter(today)) {
            throw new BadInput(
                    "usual SpO2: it cannot have been stated for the days from %s on, which is %s; check the date."
                            .formatted(usual.on(), usual.on().isBefore(born) ? "before the birth" : "after today"));
        }
    }

    private static void refuseTaken(Connection c, Person person) throws SQLException {
        for (Person other : alike(c, person.nickname())) {
            if (!other.id().equals(person.id())) {
                throw new BadInput("Someone in this diary is already called \"%s\"; choose another nickname."
                        .formatted(other.nickname()));
            }
        }
    }

    private static Object[] columns(Person person, Instant now) {
        return new Object[] {
            person.nickname(),
            person.birthMonth().toString(),
            Json.compact(GuidanceJson.toJson(person.conditions())),
            person.about(),
            Json.compact(GuidanceJson.toJson(person.limits())),
            now,
            person.id()
        };
    }

    private static Person person(ResultSet row) throws SQLException {
        return new Person(
                Sql.id(row, "id"),
                row.getString("nickname"),
                YearMonth.parse(row.getString("birth_month")),
                GuidanceJson.conditions(Json.parse(row.getString("conditions_json"), "the stored conditions")),
                row.getString("about"),
                GuidanceJson.limits(Json.parse(row.getString("limits_json"), "the stored limits")));
    }
}
