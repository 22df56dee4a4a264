package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A recording goes with the transaction that did not come to name it, and stays in every other case. */
class KeeperTest {
    @TempDir
    Path temp;

    private Path folder;
    private Path recordings;

    @BeforeEach
    void names() {
        folder = temp.resolve("diary");
        recordings = folder.resolve("recordings");
    }

    private static Take add(Diary diary, String sound) {
        Round round = diary.rounds().start(person(diary).id());
        return diary.takes()
                .add(new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, "a.wav"), Examples.bytes(sound));
    }

    private static Person person(Diary diary) {
        List<Person> all = diary.persons().all();
        return all.isEmpty() ? Examples.person(diary, "Mia") : all.get(0);
    }

    private List<String> files() throws IOException {
        try (Stream<Path> files = Files.walk(recordings)) {
            return files.filter(Files::isRegularFile)
                    .map(f -> f.getFileName().toString())
                    .sorted()
                    .toList();
        }
    }

    private static long endedProcess() throws Exception {
        Process process = new ProcessBuilder("true").start();
        process.waitFor();
        return process.pid();
    }

    private void mark(long process, String hash) throws IOException {
        Files.createFile(recordings.resolve("keeping-%d-%s".formatted(process, hash)));
    }

    private static void unnamed(Diary diary, String sound) {
        RecordingStore store = diary.recordings();
        store.kept(Objects.requireNonNull(store.keep(store.receive(Examples.bytes(sound), "b.wav"))));
    }

    @Test
    void whatIsTakenBackTakesItsRecordingAlong() throws IOException {
        try (Diary diary = Diary.open(folder)) {
            Take kept = add(diary, "kept");
            assertThatThrownBy(() -> diary.together(() -> {
                        add(diary, "taken back");
                        add(diary, "kept");
                        throw new IllegalStateException("the disk is full");
                    }))
                    .hasMessage("the disk is full");

            assertThat(files()).containsExactly(kept.recordingSha256());
            assertThat(diary.recordings().isWhole(kept.recordingSha256())).isTrue();
        }
    }

    @Test
    void whatAProcessThatEndedHadKeptAndNotNamedIsDeletedAtTheNextStart() throws Exception {
        String hash = RecordingStore.hashOf("unnamed".getBytes(StandardCharsets.UTF_8));
        Take kept;
        try (Diary diary = Diary.open(folder)) {
            kept = add(diary, "kept");
            unnamed(diary, "unnamed");
        }
        assertThat(files()).containsExactlyInAnyOrder(kept.recordingSha256(), hash);
        // It ended between the end of the transaction and taking the mark away: the row is there.
        mark(endedProcess(), kept.recordingSha256());
        mark(endedProcess(), hash);

        try (Diary diary = Diary.open(folder)) {
            assertThat(files()).containsExactly(kept.recordingSha256());
            assertThat(diary.recordings().isWhole(kept.recordingSha256())).isTrue();
        }
    }

    @Test
    void whatALiveProcessIsAboutToNameStays() throws Exception {
        try (Diary diary = Diary.open(folder)) {
            add(diary, "kept");
            unnamed(diary, "unnamed");
        }
        String hash = RecordingStore.hashOf("unnamed".getBytes(StandardCharsets.UTF_8));
        Process alive = new ProcessBuilder("sleep", "60").start();
        try {
            mark(alive.pid(), hash);
            Diary.open(folder).close();
            assertThat(files()).contains(hash, "keeping-%d-%s".formatted(alive.pid(), hash));
        } finally {
            alive.destroyForcibly().waitFor();
        }
        Diary.open(folder).close();
        assertThat(files()).hasSize(1).doesNotContain(hash);
    }

    /** An older diary file that was put back by mistake names none of the newer recordings; the newer one, put back in its turn, does. */
    @Test
    void whatNoRowNamesStaysWithoutAMark() throws IOException {
        Path older = temp.resolve("older.sqlite");
        Path newer = temp.resolve("newer.sqlite");
        Take late;
        try (Diary diary = Diary.open(folder)) {
            add(diary, "early");
        }
        Files.copy(folder.resolve(Diary.FILE_NAME), older);
        try (Diary diary = Diary.open(folder)) {
            late = add(diary, "late");
        }
        Files.move(folder.resolve(Diary.FILE_NAME), newer);
        Files.move(older, folder.resolve(Diary.FILE_NAME));
        Diary.open(folder).close();
        Files.delete(folder.resolve(Diary.FILE_NAME));
        Files.move(newer, folder.resolve(Diary.FILE_NAME));

        try (Diary diary = Diary.open(folder)) {
            assertThat(diary.recordings().isWhole(diary.takes().get(late.id()).recordingSha256()))
                    .isTrue();
        }
    }

    @Test
    void anErasureTakesTheMarksOfEndedProcessesToo() throws Exception {
        try (Diary diary = Diary.open(folder)) {
            Take take = add(diary, "sound");
            mark(endedProcess(), take.recordingSha256());
            diary.eraser().person(person(diary).id());
        }
        assertThat(files()).isEmpty();
    }
}
