package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.examine.Examination;
import lungwort.guidance.Age;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.EmergencyNumber;
import lungwort.guidance.Guidance;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.Situation;
import lungwort.guidance.Symptoms;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DiaryTest {
    private static final Site BASE = Sites.of("back-lower-left");

    @TempDir
    Path temp;

    private Path folder;
    private final Examples.MovingClock clock = new Examples.MovingClock();

    @BeforeEach
    void nameTheFolder() {
        folder = temp.resolve("diary");
    }

    private Diary open() {
        return Diary.open(folder, clock);
    }

    /** Lists, pages and commands show a nickname in the middle of a line. */
    @Test
    void aNicknameStandsOnOneLine() {
        try (Diary diary = open()) {
            for (String name : List.of("Mia\nTom", "Mia\tTom", "Mia\r\nTom")) {
                assertThatThrownBy(() -> diary.persons()
                                .add(name, YearMonth.of(2021, 4), Conditions.NONE, "", ClinicianLimits.NONE))
                        .isInstanceOf(BadInput.class)
                        .hasMessage("The nickname goes over more than one line; give it on one.");
            }
            assertThat(diary.persons().all()).isEmpty();
        }
    }

    /** A computer whose battery is empty wakes up years ago: that is the clock's fault, not that of the month of birth. */
    @Test
    void beforeAPersonsBirthTheClockIsDoubted() {
        try (Diary diary = open()) {
            Person mia = Examples.person(diary, "Mia");

            assertThatThrownBy(() -> mia.age(LocalDate.of(2000, 1, 1)))
                    .isInstanceOf(BadInput.class)
                    .hasMessage(
                            "On 2000-01-01 Mia was not born yet (month of birth: %s), and every limit depends on the age; set this computer's clock right, or correct the month of birth.",
                            mia.birthMonth());
            assertThat(mia.age(mia.birthMonth().atDay(1))).isEqualTo(new Age(0));
        }
    }

    @Test
    void whatIsWrittenIsReadAfterReopening() {
        Person person;
        Round round;
        Take take;
        Note note;
        try (Diary diary = open()) {
            person = Examples.person(diary, "Mia");
            round = diary.rounds()
                    .start(person.id())
                    .with(DangerAnswers.noneOf(Age.ofYears(4)))
                    .with(Vitals.NONE.withSpo2(95).withRespiratoryRate(28))
                    .with(Symptoms.ABSENT)
                    .withMedicines("two puffs at 7");
            diary.rounds().change(round);
            take = diary.takes()
                    .add(new NewTake(round.id(), BASE, TakeReason.FIRST, "left.wav"), Examples.bytes("sound"));
            diary.takes().examined(take.id(), Examples.examination(1, 2));
            note = diary.notes().add(person.id(), round.id(), "slept badly");
            diary.settings().setEmergencyNumber(new EmergencyNumber("000 000"));
        }
        try (Diary diary = open()) {
            assertThat(diary.persons().need("mia")).isEqualTo(person);
            assertThat(diary.rounds().ofPerson(person.id())).containsExactly(round);
            Take read = diary.takes().ofRound(round.id()).get(0);
            assertThat(read.fileName()).isEqualTo("left.wav");
            assertThat(read.site()).isEqualTo(BASE);
            assertThat(read.examination()).contains(Examples.examination(1, 2));
            assertThat(diary.recordings().read(take.recordingSha256()))
                    .isEqualTo("sound".getBytes(StandardCharsets.UTF_8));
            assertThat(diary.notes().ofRound(round.id())).containsExactly(note);
            assertThat(diary.settings().emergencyNumber()).contains(new EmergencyNumber("000 000"));
        }
    }

    @Test
    void theEmergencyNumberIsNeverAssumed() {
        try (Diary diary = open()) {
            assertThat(diary.settings().emergencyNumber()).isEmpty();
        }
    }

    @Test
    void aFinishedRoundKeepsWhatWasSaid() {
        try (Diary diary = open()) {
            Person person = Examples.person(diary, "Mia");
            Round round = diary.rounds().start(person.id());
            var step = Guidance.decide(Situation.of(person.age(round.day())));
            diary.rounds().change(round.finished(clock.instant(), step));

            assertThat(diary.rounds().get(round.id()).nextStep()).isEqualTo(step);
            assertThat(diary.rounds().open(person.id())).isEmpty();
        }
    }

    @Test
    void theNewestExaminationCountsAndTheOldOnesStay() {
        try (Diary diary = open()) {
            Round round = diary.rounds().start(Examples.person(diary, "Mia").id());
            Take take =
                    diary.takes().add(new NewTake(round.id(), BASE, TakeReason.FIRST, "a"), Examples.bytes("sound"));
            diary.takes().examined(take.id(), Examples.examination(0, 0));
            diary.takes().examined(take.id(), Examples.examination(1, 0));

            assertThat(diary.takes().get(take.id()).examination()).contains(Examples.examination(1, 0));
            assertThat(diary.takes().examinations(take.id())).hasSize(2);
        }
    }

    @Test
    void takesKeepTheOrderInWhichTheyWereAdded() {
        try (Diary diary = open()) {
            Round round = diary.rounds().start(Examples.person(diary, "Mia").id());
            for (int i = 0; i < 20; i++) {
                diary.takes()
                        .add(
                                new NewTake(round.id(), BASE, TakeReason.FIRST, Integer.toString(i)),
                                Examples.bytes("sound " + i));
            }
            assertThat(diary.takes().ofRound(round.id()))
                    .extracting(Take::fileName)
                    .containsExactlyElementsOf(Stream.iterate(0, i -> i + 1)
                            .limit(20)
                            .map(String::valueOf)
                            .toList());
        }
    }

    @Test
    void theSameRecordingIsKeptOnce() {
        try (Diary diary = open()) {
            Round round = diary.rounds().start(Examples.person(diary, "Mia").id());
            diary.takes().add(new NewTake(round.id(), BASE, TakeReason.FIRST, "a"), Examples.bytes("same"));
            diary.takes().add(new NewTake(round.id(), BASE, TakeReason.MOVED, "b"), Examples.bytes("same"));

            assertThat(diary.recordings().hashes()).hasSize(1);
        }
    }

    @Test
    void aFileNameIsALabelAndNeverAPath() {
        try (Diary diary = open()) {
            Round round = diary.rounds().start(Examples.person(diary, "Mia").id());
            Take take = diary.takes()
                    .add(
                            new NewTake(round.id(), BASE, TakeReason.FIRST, "../../etc/pass\u0007wd"),
                            Examples.bytes("sound"));

            assertThat(take.fileName()).isEqualTo("pass wd");
            assertThat(diary.recordings().path(take.recordingSha256()))
                    .startsWith(folder.resolve("recordings"))
                    .exists();
        }
    }

    @Test
    void folderAndFilesAreForTheirOwnerOnly() throws Exception {
        Assumptions.assumeTrue(
                FileSystems.getDefault().supportedFileAttributeViews().contains("posix"), () -> {
                    System.out.println("SKIPPED: this system has no POSIX permissions");
                    return "no POSIX permissions";
                });
        try (Diary diary = open()) {
            Round round = diary.rounds().start(Examples.person(diary, "Mia").id());
            diary.takes().add(new NewTake(round.id(), BASE, TakeReason.FIRST, "a"), Examples.bytes("sound"));
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path path : all.toList()) {
                    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(path)))
                            .as(path.toString())
                            .isEqualTo(Files.isDirectory(path) ? "rwx------" : "rw-------");
                }
            }
        }
    }

    @Test
    void permissionsThatWereLoosenedAreTightenedAgain() throws Exception {
        Assumptions.assumeTrue(
                FileSystems.getDefault().supportedFileAttributeViews().contains("posix"), "no POSIX permissions");
        open().close();
        Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
        Files.setPosixFilePermissions(folder.resolve(Diary.FILE_NAME), PosixFilePermissions.fromString("rw-r--r--"));

        open().close();

        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(folder)))
                .isEqualTo("rwx------");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(folder.resolve(Diary.FILE_NAME))))
                .isEqualTo("rw-------");
    }

    @Test
    void aFolderWithOtherFilesIsRefusedAndLeftAlone() throws Exception {
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("letter.txt"), "dear");

        assertThatThrownBy(this::open)
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("holds other files and no diary");
        try (Stream<Path> all = Files.list(folder)) {
            assertThat(all).hasSize(1);
        }
    }

    @Test
    void twoPersonsCannotShareANickname() {
        try (Diary diary = open()) {
            Examples.person(diary, "Mia");
            assertThatThrownBy(() -> Examples.person(diary, "MIA"))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("already called \"Mia\"");
        }
    }

    /** Two entries of one child would each have half of its days to be held against. */
    @ParameterizedTest
    @CsvSource({
        "Änne, äNNE, case beyond ASCII",
        "Zo\u00eb, Zoe\u0308, one character or two for an accent (NFC and NFD)",
        "Straße, STRASSE, ß in capitals",
        "Mia, Mi\u200ba, a blank of no width",
        "Mia Ann, Mia\u00a0 Ann, blanks of another kind",
    })
    void nicknamesThatReadAlikeAreOne(String one, String other, String why) {
        try (Diary diary = open()) {
            Person person = Examples.person(diary, one);

            assertThat(diary.persons().need(other)).as(why).isEqualTo(person);
            assertThatThrownBy(() -> Examples.person(diary, other))
                    .as(why)
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("already called \"%s\"", one);
            diary.persons().change(person.withNickname(other).withAbout("written anew"));
            assertThat(diary.persons().need(one).about()).isEqualTo("written anew");
        }
    }

    @Test
    void twoOfAnOlderDiaryWhoReadAlikeStayTwo() throws Exception {
        try (Diary diary = open()) {
            Person upper = Examples.person(diary, "Änne");
            Person lower = Examples.person(diary, "Tom");
            try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve(Diary.FILE_NAME))) {
                Sql.run(c, "update person set nickname = 'änne' where nickname = 'Tom'");
            }

            assertThat(diary.persons().need("Änne").id()).isEqualTo(upper.id());
            assertThat(diary.persons().need("änne").id()).isEqualTo(lower.id());
            assertThatThrownBy(() -> diary.persons().need("A\u0308nne"))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("Änne")
                    .hasMessageContaining("änne");
            diary.persons().change(upper.withAbout("can still be changed"));
            assertThat(diary.persons().need("Änne").about()).isEqualTo("can still be changed");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"\u200b", "\u00a0", "\u2060\u2003", "Mia\u202etxt", "Mia\u2066", "Mia\u2028Tom"})
    void aNicknameThatCannotBeSeenOrTurnsTheLineRoundIsRefused(String nickname) {
        try (Diary diary = open()) {
            assertThatThrownBy(() -> Examples.person(diary, nickname))
                    .isInstanceOf(BadInput.class)
                    .hasMessageStartingWith("The nickname ");
            assertThat(diary.persons().all()).isEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "\ud83d\udc76\ud83c\udffd",
                "\ud83d\udc69\u200d\ud83d\udc67",
                "\u05d0\u05d1\u05d2",
                "--person",
                "%",
                "O'Neil \"x\"",
                "../../etc"
            })
    void anOddNicknameIsFoundAsItWasGiven(String nickname) {
        try (Diary diary = open()) {
            Person person = Examples.person(diary, nickname);
            assertThat(diary.persons().need(nickname)).isEqualTo(person);
            assertThat(person.isTyped(nickname)).isTrue();
            assertThat(person.isTyped("another")).isFalse();
        }
    }

    @Test
    void whatConfirmsAnErasureIsTheNicknameAsItIsTyped() {
        try (Diary diary = open()) {
            Person zoe = Examples.person(diary, "Zoe\u0308");
            assertThat(zoe.isTyped(" Zo\u00eb ")).isTrue();
            assertThat(zoe.isTyped("zo\u00eb")).isFalse();
            assertThat(zoe.isTyped("Zoe")).isFalse();
        }
    }

    @Test
    void anUnknownNicknameNamesTheKnownOnes() {
        try (Diary diary = open()) {
            Examples.person(diary, "Mia");
            assertThatThrownBy(() -> diary.persons().need("Tom"))
                    .isInstanceOf(BadInput.class)
                    .hasMessage("Nobody in this diary is called \"Tom\"; it knows Mia.");
        }
    }

    @Test
    void aBirthMonthInTheFutureIsRefused() {
        try (Diary diary = open()) {
            assertThatThrownBy(() -> diary.persons()
                            .add("Mia", YearMonth.of(2027, 1), Conditions.NONE, "", ClinicianLimits.NONE))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("birth month");
            assertThat(diary.persons().all()).isEmpty();
        }
    }

    @Test
    void aRoundInTheFutureAndATakeWithoutARoundAreRefused() {
        try (Diary diary = open()) {
            Person person = Examples.person(diary, "Mia");
            assertThatThrownBy(() -> diary.rounds()
                            .start(person.id(), OffsetDateTime.now(clock).plusDays(1)))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("future");
            assertThatThrownBy(() -> diary.takes()
                            .add(new NewTake(UUID.randomUUID(), BASE, TakeReason.FIRST, "a"), Examples.bytes("sound")))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("There is no round");
            assertThat(diary.recordings().hashes()).isEmpty();
            assertThat(folder.resolve("recordings")).isEmptyDirectory();
        }
    }

    @Test
    void aNoteOnSomebodyWhoWasErasedIsASentence() {
        try (Diary diary = open()) {
            assertThatThrownBy(() -> diary.notes().add(UUID.randomUUID(), null, "hello"))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("is not in the diary (any more)");
        }
    }

    @Test
    void severalChangesAreOneOrNone() {
        try (Diary diary = open()) {
            assertThatThrownBy(() -> diary.together(() -> {
                        Examples.person(diary, "Mia");
                        throw new BadInput("stop");
                    }))
                    .isInstanceOf(BadInput.class);
            assertThat(diary.persons().all()).isEmpty();
        }
    }

    @Test
    void theDatabaseIsOpenedForSafety() {
        try (Database database = Database.open(temp.resolve("diary.sqlite"))) {
            // SQLite's documentation of its pragmas: synchronous 3 is EXTRA.
            assertThat(pragma(database, "synchronous")).isEqualTo("3");
            assertThat(pragma(database, "secure_delete")).isEqualTo("1");
            assertThat(pragma(database, "foreign_keys")).isEqualTo("1");
            assertThat(pragma(database, "journal_mode")).isEqualTo("delete");
            assertThat(pragma(database, "user_version")).isEqualTo(Integer.toString(Schema.NEWEST));
        }
    }

    private static String pragma(Database database, String name) {
        Optional<String> answer = database.read(c -> Sql.first(c, row -> row.getString(1), "pragma " + name));
        return answer.orElseThrow();
    }

    @Test
    void aDiaryOfTheFirstSchemaIsBroughtToTheNewestWithAllItHolds() throws Exception {
        Person mia;
        Round round;
        try (Diary diary = open()) {
            mia = Examples.person(diary, "Mia");
            round = diary.rounds().start(mia.id());
            Take take =
                    diary.takes().add(new NewTake(round.id(), BASE, TakeReason.FIRST, "a"), Examples.bytes("sound"));
            diary.takes().examined(take.id(), Examples.examination(4, 0));
        }
        asOfSchema1(folder.resolve(Diary.FILE_NAME));

        try (Diary diary = open()) {
            assertThat(diary.persons().all()).containsExactly(mia);
            assertThat(diary.takes().ofRound(round.id()).get(0).examination()).contains(Examples.examination(4, 0));
            // The numbers that the first schema did not keep are worked out from the examination.
            assertThat(Trend.of(diary, mia.id(), round.day(), round.day())
                            .days()
                            .get(0)
                            .wheezeShare())
                    .isEqualTo(0.25);
        }
    }

    /** A zero of crackles beside a wheeze, in a recording unlike what was learnt from, was told once: kept numbers of such takes are computed anew, others stay. */
    @Test
    void keptNumbersThatAreToldNoMoreAreComputedAnew() throws Exception {
        Round round;
        Person mia;
        try (Diary diary = open()) {
            mia = Examples.person(diary, "Mia");
            round = diary.rounds().start(mia.id());
            Take take =
                    diary.takes().add(new NewTake(round.id(), BASE, TakeReason.FIRST, "a"), Examples.bytes("sound"));
            Examination e = Examples.examination(2, 0);
            diary.takes()
                    .examined(
                            take.id(),
                            new Examination(
                                    e.origin(),
                                    e.durationSeconds(),
                                    e.source(),
                                    e.suggestion(),
                                    e.probabilities(),
                                    e.quality(),
                                    e.breathing(),
                                    e.evidence(),
                                    List.of(Examples.UNLIKE),
                                    e.model()));
        }
        try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve(Diary.FILE_NAME))) {
            Sql.run(
                    c,
                    "update examination set measures_json = json_set(measures_json, '$.cracklesTold', json('true'))");
            Sql.run(c, "pragma user_version = 3");
        }

        try (Diary diary = open()) {
            Day day = Trend.of(diary, mia.id(), round.day(), round.day()).days().get(0);
            assertThat(day.wheezeShare()).isNotNull();
            assertThat(day.cracklesPerBreath()).isNull();
        }
    }

    /** Builds the first schema anew beside the diary and moves every row into it. */
    private static void asOfSchema1(Path file) throws Exception {
        Path old = file.resolveSibling("old.sqlite");
        try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + old)) {
            Schema.migrate(c, 1);
            Sql.run(c, "attach '%s' as newest".formatted(file));
            for (String table : Schema.TABLES) {
                String columns = String.join(", ", Rows.columns(c, table));
                Sql.run(c, "insert into main.%s select %s from newest.%s".formatted(table, columns, table));
            }
            assertThat(Rows.columns(c, "examination")).doesNotContain("measures_json");
        }
        Files.move(old, file, StandardCopyOption.REPLACE_EXISTING);
    }

    @Test
    void severalThreadsMayShareOneDiary() {
        try (Diary diary = open()) {
            Person mia = Examples.person(diary, "Mia");
            List<UUID> stored = IntStream.range(0, 24)
                    .parallel()
                    .mapToObj(i -> {
                        Round round = diary.rounds().start(mia.id());
                        Take take = diary.takes()
                                .add(
                                        new NewTake(round.id(), BASE, TakeReason.FIRST, "a"),
                                        Examples.bytes("sound " + i));
                        diary.takes().examined(take.id(), Examples.examination(0, i));
                        return take.id();
                    })
                    .toList();

            assertThat(diary.takes().ofPerson(mia.id()))
                    .extracting(Take::id)
                    .containsExactlyInAnyOrderElementsOf(stored);
        }
    }

    @Test
    void anExaminationThatCannotBeReadCountsAsNotMade() throws Exception {
        UUID id;
        try (Diary diary = open()) {
            Round round = diary.rounds().start(Examples.person(diary, "Mia").id());
            Take take =
                    diary.takes().add(new NewTake(round.id(), BASE, TakeReason.FIRST, "a"), Examples.bytes("sound"));
            diary.takes().examined(take.id(), Examples.examination(0, 1));
            id = take.id();
        }
        try (Database database = Database.open(folder.resolve(Diary.FILE_NAME))) {
            database.write(
                    c -> Sql.update(c, "update examination set examination_json = '{\"file\":\"of later years\"}'"));
        }
        try (Diary diary = open()) {
            assertThat(diary.takes().get(id).examination()).isEmpty();
        }
    }

    @Test
    void theUsualFolderIsTheOneOfTheSystem() {
        assertThat(DiaryFolder.locate(null, Map.of(), "Linux", "/home/a")).hasToString("/home/a/.local/share/lungwort");
        assertThat(DiaryFolder.locate(null, Map.of("XDG_DATA_HOME", "/data"), "Linux", "/home/a"))
                .hasToString("/data/lungwort");
        assertThat(DiaryFolder.locate(null, Map.of("XDG_DATA_HOME", "relative"), "Linux", "/home/a"))
                .hasToString("/home/a/.local/share/lungwort");
        assertThat(DiaryFolder.locate(null, Map.of(), "Mac OS X", "/Users/a"))
                .hasToString("/Users/a/Library/Application Support/Lungwort");
        assertThat(DiaryFolder.locate(null, Map.of("HOME", "/elsewhere/ä b"), "Linux", "/home/a"))
                .hasToString("/elsewhere/ä b/.local/share/lungwort");
        assertThat(DiaryFolder.locate(null, Map.of("HOME", "/elsewhere"), "Mac OS X", "/Users/a"))
                .hasToString("/elsewhere/Library/Application Support/Lungwort");
        assertThat(DiaryFolder.locate(null, Map.of("HOME", "relative"), "Linux", "/home/a"))
                .hasToString("/home/a/.local/share/lungwort");
        assertThat(DiaryFolder.locate(null, Map.of("LUNGWORT_DIARY", "/elsewhere"), "Linux", "/home/a"))
                .hasToString("/elsewhere");
        assertThat(DiaryFolder.locate(Path.of("/named"), Map.of("LUNGWORT_DIARY", "/elsewhere"), "Linux", "/home/a"))
                .hasToString("/named");
        assertThatThrownBy(() -> DiaryFolder.locate(null, Map.of(), "Linux", ""))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("--diary");
    }
}
