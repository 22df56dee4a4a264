package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EraserTest {
    private static final List<String> SECRETS =
            List.of("Persephone", "slept very badly", "first words", "hidden sound", "label-of-file");

    @TempDir
    Path temp;

    private Path folder;

    @BeforeEach
    void nameTheFolder() {
        folder = temp.resolve("diary");
    }

    private static Round round(Diary diary, Person person, String sound) {
        Round round = diary.rounds().start(person.id());
        Take take = diary.takes()
                .add(
                        new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, "label-of-file.wav"),
                        Examples.bytes(sound));
        diary.takes().examined(take.id(), Examples.examination(1, 0));
        return round;
    }

    /** Which of the words stand anywhere in any file of the folder. */
    private List<String> found() throws IOException {
        StringBuilder all = new StringBuilder();
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                all.append(new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1));
            }
        }
        return SECRETS.stream().filter(s -> all.indexOf(s) >= 0).toList();
    }

    private Person fill(Diary diary) {
        Person person = Examples.person(diary, "Persephone");
        Round round = round(diary, person, "hidden sound");
        Note note = diary.notes().add(person.id(), round.id(), "first words");
        diary.notes().change(note.id(), "slept very badly");
        return person;
    }

    @Test
    void anErasedPersonIsInNoByteOfTheFolder() throws IOException {
        try (Diary diary = Diary.open(folder)) {
            Person other = Examples.person(diary, "Tom");
            round(diary, other, "kept sound");
            Person person = fill(diary);
            assertThat(found()).isEqualTo(SECRETS);

            Eraser.Erased erased = diary.eraser().person(person.id());

            assertThat(erased).isEqualTo(new Eraser.Erased(1, 1, 1));
            try (Stream<Path> shelves = Files.list(folder.resolve("recordings"))) {
                assertThat(shelves).hasSize(1);
            }
            assertThat(diary.takes().ofPerson(other.id())).hasSize(1);
            assertThat(diary.recordings().hashes()).hasSize(1);
            // The other person's file has the same label.
            assertThat(found()).containsExactly("label-of-file");
        }
        assertThat(found()).containsExactly("label-of-file");
    }

    @Test
    void aRecordingThatSomeoneElseAlsoHasStays() {
        try (Diary diary = Diary.open(folder)) {
            Person mia = Examples.person(diary, "Mia");
            Person tom = Examples.person(diary, "Tom");
            round(diary, mia, "same sound");
            Round kept = round(diary, tom, "same sound");

            assertThat(diary.eraser().person(mia.id()).recordings()).isZero();

            assertThat(diary.recordings()
                            .isWhole(diary.takes().ofRound(kept.id()).get(0).recordingSha256()))
                    .isTrue();
        }
    }

    @Test
    void oneRoundOrOneTakeCanBeErased() {
        try (Diary diary = Diary.open(folder)) {
            Person mia = Examples.person(diary, "Mia");
            Round first = round(diary, mia, "one");
            Round second = round(diary, mia, "two");

            assertThat(diary.eraser().round(first.id())).isEqualTo(new Eraser.Erased(1, 1, 1));
            assertThat(diary.rounds().ofPerson(mia.id())).containsExactly(second);

            Take take = diary.takes().ofRound(second.id()).get(0);
            assertThat(diary.eraser().take(take.id())).isEqualTo(new Eraser.Erased(0, 1, 1));
            assertThat(diary.rounds().ofPerson(mia.id())).containsExactly(second);
            assertThat(diary.takes().ofRound(second.id())).isEmpty();
        }
    }

    @Test
    void aTakeThatWasTakenOutIsInNoByteOfTheFolder() throws IOException {
        try (Diary diary = Diary.open(folder)) {
            Person person = fill(diary);
            Take wrong = diary.takes().ofPerson(person.id()).get(0);
            Take kept = diary.takes()
                    .add(
                            new NewTake(wrong.roundId(), Sites.of("neck"), TakeReason.MOVED, "other.wav"),
                            Examples.bytes("kept sound"));
            diary.takes().change(wrong.id(), TakeReason.AFTER_COUGH, true, false);

            assertThat(diary.eraser().takeOut(wrong.id(), () -> {})).isEqualTo(new Eraser.Erased(0, 1, 1));

            assertThat(found()).doesNotContain("hidden sound", "label-of-file").contains("Persephone");
            assertThat(diary.takes().ofPerson(person.id())).containsExactly(kept);
            assertThat(diary.recordings().isWhole(kept.recordingSha256())).isTrue();
        }
    }

    @Test
    void aTakeStaysWholeWhereItMayNotBeTakenOut() {
        try (Diary diary = Diary.open(folder)) {
            Take take = diary.takes()
                    .ofRound(round(diary, Examples.person(diary, "Mia"), "one").id())
                    .get(0);

            assertThatThrownBy(() -> diary.eraser().takeOut(take.id(), () -> {
                        throw new BadInput("It stays.");
                    }))
                    .isInstanceOf(BadInput.class)
                    .hasMessage("It stays.");

            assertThat(diary.takes().get(take.id())).isEqualTo(take);
            assertThat(diary.recordings().isWhole(take.recordingSha256())).isTrue();
        }
    }

    @Test
    void anErasureThatWasCutShortIsEndedAtTheNextStart() throws IOException {
        try (Diary diary = Diary.open(folder)) {
            Person person = fill(diary);
            try (Database database = Database.open(folder.resolve(Diary.FILE_NAME))) {
                // As if the process had been killed after the rows were deleted and before the recordings were.
                database.write(c -> {
                    Eraser.begin(c);
                    return Sql.update(c, "delete from person where id = ?", person.id());
                });
            }
        }
        assertThat(found()).contains("hidden sound");

        Diary.open(folder).close();

        assertThat(found()).isEmpty();
    }

    @Test
    void aDeletedNoteIsGoneWithWhatItSaidBefore() throws IOException {
        try (Diary diary = Diary.open(folder)) {
            Person person = Examples.person(diary, "Mia");
            Note note = diary.notes().add(person.id(), null, "first words");
            diary.notes().change(note.id(), "slept very badly");
            diary.notes().delete(note.id());
        }
        assertThat(found()).isEmpty();
    }

    @Test
    void aRecordingThatWasStillBeingMadeGoesWithItsRound() throws IOException {
        try (Diary diary = Diary.open(folder)) {
            Person mia = Examples.person(diary, "Mia");
            Round erased = round(diary, mia, "one");
            Round kept = round(diary, mia, "two");
            Path unfinished = Files.createDirectory(folder.resolve("unfinished"));
            for (Round round : List.of(erased, kept)) {
                Files.writeString(unfinished.resolve(round.id() + ".json"), "{\"round\":\"%s\"}".formatted(round.id()));
                Files.writeString(unfinished.resolve(round.id() + ".pcm"), "hidden sound");
            }

            diary.eraser().round(erased.id());

            assertThat(unfinished.resolve(erased.id() + ".json")).doesNotExist();
            assertThat(unfinished.resolve(erased.id() + ".pcm")).doesNotExist();
            assertThat(unfinished.resolve(kept.id() + ".json")).exists();
            assertThat(unfinished.resolve(kept.id() + ".pcm")).exists();
        }
    }

    /** A page that is stopped by force while it sends or takes in an archive leaves it lying in the folder. */
    @Test
    void aCopyThatAStoppedPageLeftIsGoneAtTheNextStartAndOneThatIsBeingSentIsNot() throws Exception {
        Process ended = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-version")
                .redirectErrorStream(true)
                .start();
        ended.getInputStream().readAllBytes();
        ended.waitFor();
        UUID id = UUID.randomUUID();
        List<Path> left = new ArrayList<>();
        Path being;
        Path fresh = folder.resolve("unfinished-export-%s.zip".formatted(id));
        Path foreign = folder.resolve("unfinished-letter.zip");
        try (Diary diary = Diary.open(folder)) {
            Person person = fill(diary);
            being = diary.passingArchive("export");
            diary.archive().write(being, person.id());
            for (String name : List.of(
                    "unfinished-export-%d-%s.zip",
                    ".unfinished-export-%d-%s.zip.part",
                    "unfinished-export-%d-%s.zip.unfinished",
                    "unfinished-import-%d-%s.zip")) {
                left.add(Files.copy(being, folder.resolve(name.formatted(ended.pid(), id))));
            }
            // As older versions called them.
            Path old = Files.copy(being, folder.resolve("unfinished-import-%s.zip".formatted(id)));
            Files.setLastModifiedTime(old, FileTime.from(Instant.now().minus(Duration.ofDays(2))));
            left.add(old);
            Files.copy(being, fresh);
            Files.writeString(foreign, "a letter");
        }

        Diary.open(folder).close();

        assertThat(left).allSatisfy(file -> assertThat(file).doesNotExist());
        assertThat(List.of(being, fresh, foreign))
                .allSatisfy(file -> assertThat(file).exists());
    }

    @Test
    void whatIsNotThereIsASentence() {
        try (Diary diary = Diary.open(folder)) {
            assertThatThrownBy(() -> diary.eraser().person(java.util.UUID.randomUUID()))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("no person");
        }
    }
}
