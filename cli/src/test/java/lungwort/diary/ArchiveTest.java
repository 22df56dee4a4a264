package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Enumeration;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import lungwort.BadInput;
import lungwort.guidance.EmergencyNumber;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ArchiveTest {
    @TempDir
    Path temp;

    private final Examples.MovingClock clock = new Examples.MovingClock();
    private Diary here;
    private Diary there;
    private Path zip;

    @BeforeEach
    void openTwoDiaries() {
        here = Diary.open(temp.resolve("here"), clock);
        there = Diary.open(temp.resolve("there"), clock);
        zip = temp.resolve("copy.zip");
    }

    @AfterEach
    void close() {
        here.close();
        there.close();
    }

    private static Round round(Diary diary, Person person, String... sounds) {
        Round round = diary.rounds().start(person.id());
        for (String sound : sounds) {
            Take take = diary.takes()
                    .add(new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, sound), Examples.bytes(sound));
            diary.takes().examined(take.id(), Examples.examination(1, 0));
        }
        return round;
    }

    private static String everything(Diary diary) {
        StringBuilder all = new StringBuilder();
        for (Person person : diary.persons().all()) {
            all.append(person).append('\n');
            all.append(diary.rounds().ofPerson(person.id())).append('\n');
            for (Take take : diary.takes().ofPerson(person.id())) {
                all.append(take)
                        .append(new String(diary.recordings().read(take.recordingSha256()), StandardCharsets.UTF_8))
                        .append('\n');
            }
            all.append(diary.notes().ofPerson(person.id())).append('\n');
        }
        return all.toString();
    }

    @Test
    void aCopyHoldsEverything() {
        Person mia = Examples.person(here, "Mia");
        Round round = round(here, mia, "one", "two");
        here.rounds().change(round.with(Vitals.NONE.withSpo2(95)));
        here.notes().add(mia.id(), round.id(), "slept badly");
        here.settings().setEmergencyNumber(new EmergencyNumber("000 000"));

        here.archive().write(zip, null);
        Archive.Imported imported = there.archive().read(zip);

        assertThat(everything(there)).isEqualTo(everything(here));
        assertThat(imported).isEqualTo(new Archive.Imported(new Archive.Added(1, 1, 2, 2, 1), 0, 2, List.of()));
        assertThat(there.settings().emergencyNumber()).contains(new EmergencyNumber("000 000"));
    }

    @Test
    void theSameDiaryGivesTheSameArchive() throws IOException {
        round(here, Examples.person(here, "Mia"), "one", "two");

        here.archive().write(zip, null);
        here.archive().write(temp.resolve("again.zip"), null);

        assertThat(zip).hasSameBinaryContentAs(temp.resolve("again.zip"));
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(zip)))
                .isEqualTo("rw-------");
    }

    @Test
    void takingTheSameArchiveInTwiceChangesNothing() {
        round(here, Examples.person(here, "Mia"), "one");
        here.archive().write(zip, null);
        there.archive().read(zip);
        String once = everything(there);

        Archive.Imported again = there.archive().read(zip);

        assertThat(again).isEqualTo(new Archive.Imported(new Archive.Added(0, 0, 0, 0, 0), 0, 0, List.of()));
        assertThat(everything(there)).isEqualTo(once);
    }

    @Test
    void whatIsHereStaysAndWhatIsNewComesIn() {
        Person tom = Examples.person(there, "Tom");
        Round own = round(there, tom, "own");
        round(here, Examples.person(here, "Mia"), "one");
        here.archive().write(zip, null);

        there.archive().read(zip);

        assertThat(there.persons().all()).extracting(Person::nickname).containsExactly("Mia", "Tom");
        assertThat(there.takes().ofRound(own.id())).hasSize(1);
    }

    @Test
    void onlyOnePersonCanBeWritten() {
        Person mia = Examples.person(here, "Mia");
        round(here, mia, "one");
        round(here, Examples.person(here, "Tom"), "two");

        Archive.Exported exported = here.archive().write(zip, mia.id());
        there.archive().read(zip);

        assertThat(exported).isEqualTo(new Archive.Exported(1, 1, 1, List.of()));
        assertThat(there.persons().all()).containsExactly(mia);
    }

    @Test
    void whereBothDifferTheNewerCountsAndTheOtherIsRemembered() {
        Person mia = Examples.person(here, "Mia");
        here.archive().write(zip, null);
        there.archive().read(zip);
        clock.plusSeconds(60);
        there.persons().change(mia.withAbout("changed there"));
        clock.plusSeconds(60);
        here.persons().change(mia.withAbout("changed here, later"));
        here.archive().write(temp.resolve("newer.zip"), null);
        there.archive().write(temp.resolve("older.zip"), null);

        assertThat(there.archive().read(temp.resolve("newer.zip")).changed()).isEqualTo(1);
        assertThat(here.archive().read(temp.resolve("older.zip")).changed()).isEqualTo(1);

        for (Diary diary : List.of(here, there)) {
            assertThat(diary.persons().need("Mia").about()).isEqualTo("changed here, later");
            diary.archive().write(diary.folder().resolveSibling(diary.folder().getFileName() + ".zip"), null);
        }
        assertThat(rows(temp.resolve("here.zip"))).contains("changed there").contains("born at 31 weeks");
        assertThat(rows(temp.resolve("there.zip"))).contains("changed there").contains("born at 31 weeks");
    }

    /** On the page somebody takes a take out while the command line makes a copy: what was begun to be copied is copied whole. */
    @Test
    void aRecordingThatIsErasedWhileItIsCopiedIsReadToItsEnd() throws IOException {
        Round round = round(here, Examples.person(here, "Mia"), "one");
        Take take = here.takes().ofRound(round.id()).get(0);

        try (FileChannel whole = here.recordings().openWhole(take.recordingSha256())) {
            here.eraser().takeOut(take.id(), () -> {});

            assertThat(here.recordings().path(take.recordingSha256())).doesNotExist();
            assertThat(Channels.newInputStream(Objects.requireNonNull(whole)).readAllBytes())
                    .isEqualTo("one".getBytes(StandardCharsets.UTF_8));
        }
        assertThat(here.recordings().openWhole(take.recordingSha256())).isNull();
    }

    @Test
    void nicknamesThatReadAlikeAreToldApart() {
        Examples.person(there, "Änne");
        Examples.person(here, "änne");
        here.archive().write(zip, null);

        Archive.Imported imported = there.archive().read(zip);

        assertThat(there.persons().all()).extracting(Person::nickname).containsExactlyInAnyOrder("Änne", "änne (2)");
        assertThat(imported.remarks()).hasSize(1);
        assertThat(there.archive().read(zip).remarks()).isEmpty();
    }

    @Test
    void aNicknameThatIsCutKeepsItsCharactersWhole() {
        String baby = "\ud83d\udc76";
        Examples.person(there, "x" + baby.repeat(29));
        Examples.person(here, "x" + baby.repeat(29));
        here.archive().write(zip, null);

        there.archive().read(zip);

        assertThat(there.persons().all()).extracting(Person::nickname).contains("x" + baby.repeat(27) + " (2)");
    }

    @Test
    void anotherPersonOfTheSameNicknameIsGivenAnother() {
        Examples.person(there, "Mia");
        Examples.person(here, "mia");
        here.archive().write(zip, null);

        Archive.Imported imported = there.archive().read(zip);

        assertThat(there.persons().all()).extracting(Person::nickname).containsExactly("Mia", "mia (2)");
        assertThat(imported.remarks())
                .containsExactly(
                        "Somebody else here is already called mia, so the one from the archive is now called mia (2).");
    }

    @Test
    void aRecordingThatIsMissingOrDamagedIsNamedAndTheRestIsKept() throws IOException {
        Round round = round(here, Examples.person(here, "Mia"), "one", "two");
        String lost = here.takes().ofRound(round.id()).get(0).recordingSha256();
        Files.writeString(here.recordings().path(lost), "tampered");

        Archive.Exported exported = here.archive().write(zip, null);
        there.archive().read(zip);

        assertThat(exported.missing()).containsExactly(lost);
        assertThat(there.takes().ofRound(round.id())).hasSize(2);
        assertThatThrownBy(() -> there.recordings().read(lost))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("is missing");
    }

    @Test
    void aRecordingDamagedHereIsMendedFromTheArchive() throws IOException {
        Round round = round(here, Examples.person(here, "Mia"), "one");
        here.archive().write(zip, null);
        String hash = here.takes().ofRound(round.id()).get(0).recordingSha256();
        Files.writeString(here.recordings().path(hash), "tampered");

        here.archive().read(zip);

        assertThat(here.recordings().read(hash)).isEqualTo("one".getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void aFileThatIsThereIsNeverOverwritten() throws IOException {
        Files.writeString(zip, "mine");

        assertThatThrownBy(() -> here.archive().write(zip, null))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("exists already");
        assertThat(zip).hasContent("mine");
    }

    @Test
    void aCutArchiveIsRefusedAtEveryLength() throws IOException {
        round(here, Examples.person(here, "Mia"), "one");
        here.archive().write(zip, null);
        byte[] whole = Files.readAllBytes(zip);
        for (int length = 0; length < whole.length; length += 97) {
            Path cut = Files.write(temp.resolve("cut.zip"), java.util.Arrays.copyOf(whole, length));
            assertThatThrownBy(() -> there.archive().read(cut))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("nothing was stored");
        }
        assertThat(there.persons().all()).isEmpty();
    }

    @Test
    void aChangedEntryAForeignEntryAMissingEntryAndAForgedRowAreRefused() throws IOException {
        Round round = round(here, Examples.person(here, "Mia"), "one");
        here.archive().write(zip, null);
        String recording =
                "recordings/" + here.takes().ofRound(round.id()).get(0).recordingSha256();

        refused(e -> e.put(recording, "other"), "was changed since it was written");
        refused(e -> e.put("rows.jsonl", rows(e).replace("Mia", "Eve")), "was changed since");
        refused(e -> e.put("../outside", "x"), "which its manifest does not list");
        refused(e -> e.remove(recording), "is missing from it");
        refused(e -> e.remove("manifest.json"), "not a diary's archive");
        refused(e -> forge(e, rows(e).replace("\"neck\"", "\"nose\"")), "site: \"nose\" is not known");
        refused(
                e -> forge(e, rows(e).replace("\"table\":\"note\"", "\"table\":\"x\"") + "{\"table\":\"x\"}"),
                "no table is called x");
        refused(
                e -> forge(
                        e,
                        rows(e).replace(
                                        round.personId().toString(),
                                        UUID.randomUUID().toString())
                                .replaceFirst("(\"table\":\"person\".*?\"id\":\")[^\"]+", "$1" + UUID.randomUUID())),
                "that this belongs to is not in the diary");
        refused(
                e -> e.put(
                        "manifest.json",
                        text(e, "manifest.json").replace("\"schema\" : " + Schema.NEWEST, "\"schema\" : 99")),
                "newer Lungwort");
    }

    private void refused(Consumer<Map<String, String>> change, String sentence) throws IOException {
        Map<String, String> entries = entries(zip);
        change.accept(entries);
        Path changed = temp.resolve("changed.zip");
        try (OutputStream file = Files.newOutputStream(changed);
                ZipOutputStream out = new ZipOutputStream(file)) {
            for (Map.Entry<String, String> entry : entries.entrySet()) {
                out.putNextEntry(new ZipEntry(entry.getKey()));
                out.write(entry.getValue().getBytes(StandardCharsets.UTF_8));
            }
        }
        assertThatThrownBy(() -> there.archive().read(changed))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(sentence);
        assertThat(there.persons().all()).isEmpty();
        assertThat(there.recordings().hashes()).isEmpty();
    }

    /** Puts in other rows with a manifest that agrees with them: only what they say can give them away. */
    private static void forge(Map<String, String> entries, String rows) {
        String before = rows(entries);
        String manifest = text(entries, "manifest.json")
                .replace(RecordingStore.hashOf(utf8(before)), RecordingStore.hashOf(utf8(rows)))
                .replace("\"bytes\" : " + utf8(before).length, "\"bytes\" : " + utf8(rows).length);
        entries.put("rows.jsonl", rows);
        entries.put("manifest.json", manifest);
    }

    private static String rows(Map<String, String> entries) {
        return text(entries, "rows.jsonl");
    }

    private static String text(Map<String, String> entries, String name) {
        return Objects.requireNonNull(entries.get(name));
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static String rows(Path zip) {
        try {
            return entries(zip).getOrDefault("rows.jsonl", "");
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static Map<String, String> entries(Path zip) throws IOException {
        Map<String, String> entries = new TreeMap<>();
        try (ZipFile file = new ZipFile(zip.toFile())) {
            for (Enumeration<? extends ZipEntry> all = file.entries(); all.hasMoreElements(); ) {
                ZipEntry entry = all.nextElement();
                try (InputStream in = file.getInputStream(entry)) {
                    entries.put(entry.getName(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
                }
            }
        }
        return entries;
    }
}
