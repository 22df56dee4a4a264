package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.util.Random;
import lungwort.BadInput;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A diary file that cannot be used gives one sentence and is left as it is, byte for byte. */
class DamagedDiaryTest {
    private static final long SEED = 20260301;

    @TempDir
    Path temp;

    private Path folder;
    private Path file;

    @BeforeEach
    void fillADiary() {
        folder = temp.resolve("diary");
        file = folder.resolve(Diary.FILE_NAME);
        try (Diary diary = Diary.open(folder)) {
            Person mia = Examples.person(diary, "Mia");
            for (int i = 0; i < 20; i++) {
                Round round = diary.rounds().start(mia.id());
                Take take = diary.takes()
                        .add(
                                new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, "a"),
                                Examples.bytes("sound " + i));
                diary.takes().examined(take.id(), Examples.examination(3, 9));
            }
        }
    }

    private void refusedAndLeft(byte[] content, String sentence) throws IOException {
        Files.write(file, content);
        assertThatThrownBy(() -> Diary.open(folder))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(sentence);
        assertThat(Files.readAllBytes(file)).isEqualTo(content);
    }

    @Test
    void anotherFileInItsPlace() throws IOException {
        refusedAndLeft(
                "dear diary".getBytes(StandardCharsets.UTF_8), "is damaged or not a diary; it was left as it is");
    }

    @Test
    void anEmptyFileBesideRecordings() throws IOException {
        refusedAndLeft(new byte[0], "is empty although recordings lie beside it");
    }

    @Test
    void aFileCutShort() throws IOException {
        byte[] whole = Files.readAllBytes(file);
        for (int part = 1; part < 8; part++) {
            refusedAndLeft(java.util.Arrays.copyOf(whole, whole.length * part / 8), "is damaged");
        }
        refusedAndLeft(java.util.Arrays.copyOf(whole, 50), "is damaged");
    }

    @Test
    void aPageFilledWithNoise() throws IOException {
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        byte[] whole = Files.readAllBytes(file);
        int pageBytes = 4096;
        for (int page = 1; page < whole.length / pageBytes; page += 3) {
            byte[] damaged = whole.clone();
            byte[] noise = new byte[pageBytes];
            random.nextBytes(noise);
            System.arraycopy(noise, 0, damaged, page * pageBytes, pageBytes);
            refusedAndLeft(damaged, "is damaged");
        }
    }

    @Test
    void anotherProgramsDatabase() throws Exception {
        Files.delete(file);
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                var statement = connection.createStatement()) {
            statement.execute("create table recipe (name text)");
        }
        refusedAndLeft(Files.readAllBytes(file), "is another program's SQLite file");
    }

    @Test
    void aDiaryOfANewerLungwort() throws Exception {
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                var statement = connection.createStatement()) {
            statement.execute("pragma user_version = 99");
        }
        refusedAndLeft(
                Files.readAllBytes(file),
                "was written by a newer Lungwort (schema 99; this one knows up to %d); it was left as it is."
                        .formatted(Schema.NEWEST));
    }

    @Test
    void aRecordingChangedBehindItsBackIsNotGivenOut() throws IOException {
        try (Diary diary = Diary.open(folder)) {
            String hash = diary.recordings().hashes().get(0);
            Files.writeString(diary.recordings().path(hash), "other");
            assertThatThrownBy(() -> diary.recordings().read(hash))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("was changed since it was stored");
        }
    }
}
