package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import lungwort.diary.Diary;
import lungwort.diary.NewTake;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Conditions;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The diary with real processes: several at once, and killed while they write. What a process said it had stored is there, whole. */
class DiaryProcessesTest {
    private static final long SEED = 20260302;

    @TempDir
    Path temp;

    private Path folder;

    @BeforeEach
    void beginADiary() {
        folder = temp.resolve("diary");
        try (Diary diary = Diary.open(folder)) {
            diary.persons().add("Mia", YearMonth.of(2021, 4), Conditions.NONE, "", ClinicianLimits.NONE);
        }
    }

    private Process writer(int count, String name) throws IOException {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        DiaryWriter.class.getName(),
                        folder.toString(),
                        "Mia",
                        Integer.toString(count),
                        name)
                .redirectError(temp.resolve("errors-" + name).toFile())
                .start();
    }

    private static List<UUID> printed(Process process) {
        try (BufferedReader out =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            List<UUID> ids = new ArrayList<>();
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                // A process that is killed may leave half a line.
                if (line.length() == 36) {
                    ids.add(UUID.fromString(line));
                }
            }
            return ids;
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private void allThereAndWhole(List<UUID> stored) throws IOException {
        try (Diary diary = Diary.open(folder)) {
            for (UUID id : stored) {
                Take take = diary.takes().get(id);
                assertThat(take.examination()).isPresent();
                assertThat(diary.recordings().isWhole(take.recordingSha256()))
                        .as("recording of take %s", id)
                        .isTrue();
            }
            // Also what was stored and not yet said: no take without its recording.
            for (Take take : diary.takes().ofPerson(diary.persons().need("Mia").id())) {
                assertThat(diary.recordings().isWhole(take.recordingSha256())).isTrue();
            }
        }
        try (Stream<Path> files = Files.walk(folder)) {
            assertThat(files.filter(f -> f.getFileName().toString().startsWith("incoming-")))
                    .isEmpty();
        }
    }

    @Test
    void twoProcessesAtOnceLoseNothing() throws Exception {
        int each = 25;
        Process first = writer(each, "first");
        Process second = writer(each, "second");
        CompletableFuture<List<UUID>> ofFirst = CompletableFuture.supplyAsync(() -> printed(first));
        List<UUID> stored = new ArrayList<>(printed(second));
        stored.addAll(ofFirst.get());

        assertThat(first.waitFor())
                .as(Files.readString(temp.resolve("errors-first")))
                .isZero();
        assertThat(second.waitFor())
                .as(Files.readString(temp.resolve("errors-second")))
                .isZero();
        assertThat(stored).hasSize(2 * each);
        allThereAndWhole(stored);
    }

    @Test
    void withoutATemporaryFolderItIsOneSentence() throws Exception {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Djava.io.tmpdir=" + temp.resolve("not-there"),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "lungwort.cli.Main",
                        "diary",
                        "person",
                        "list",
                        "--diary",
                        folder.toString())
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor()).isEqualTo(1);
        assertThat(said.strip().lines().filter(line -> line.startsWith("lungwort: ")))
                .singleElement()
                .asString()
                .contains("not-there")
                .contains("java.io.tmpdir")
                .endsWith(".");
        assertThat(said).doesNotContain("\tat ").doesNotContain("something went wrong");
    }

    @Test
    void aProcessKilledWhileItWritesLosesNothingThatWasStored() throws Exception {
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        List<UUID> stored = new ArrayList<>();
        for (int round = 0; round < 4; round++) {
            Process process = writer(1_000_000, "killed-" + round);
            int killAfter = 2 + random.nextInt(8);
            List<UUID> seen = new ArrayList<>();
            try (BufferedReader out =
                    new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
                for (String line = out.readLine(); line != null; line = out.readLine()) {
                    if (line.length() == 36) {
                        seen.add(UUID.fromString(line));
                    }
                    if (seen.size() == killAfter && process.isAlive()) {
                        Thread.sleep(random.nextInt(30));
                        assertThat(process.toHandle().destroyForcibly()).isTrue();
                    }
                }
            }
            // 128 + 9: it ended by SIGKILL and not by itself.
            assertThat(process.waitFor()).isEqualTo(137);
            assertThat(seen).hasSizeGreaterThanOrEqualTo(killAfter);
            stored.addAll(seen);
            allThereAndWhole(stored);
        }
        System.out.printf("4 processes killed, %d takes stored before, all there%n", stored.size());
    }

    /** A process that has kept a recording and holds the transaction that names it open until it is killed: {@code FOLDER NICKNAME}. */
    static final class Holder {
        private Holder() {}

        public static void main(String[] args) {
            try (Diary diary = Diary.open(Path.of(args[0]))) {
                Round round = diary.rounds().start(diary.persons().need(args[1]).id());
                diary.together(() -> {
                    Take take = diary.takes()
                            .add(
                                    new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, "held.wav"),
                                    new ByteArrayInputStream("held".repeat(9000).getBytes(StandardCharsets.UTF_8)));
                    System.out.println(take.id());
                    System.out.flush();
                    LockSupport.parkNanos(TimeUnit.MINUTES.toNanos(2));
                    return take;
                });
            }
        }
    }

    @Test
    void aRecordingOfWhichTheRowWasNeverCommittedIsGoneAtTheNextStart() throws Exception {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        Holder.class.getName(),
                        folder.toString(),
                        "Mia")
                .redirectError(temp.resolve("errors-holder").toFile())
                .start();
        try (BufferedReader out =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            assertThat(out.readLine())
                    .as(Files.readString(temp.resolve("errors-holder")))
                    .hasSize(36);
        }
        assertThat(recordingFiles()).as("kept, and about to be named").isNotEmpty();
        Diary.open(folder).close();
        assertThat(recordingFiles()).as("its process still runs").isNotEmpty();

        assertThat(process.toHandle().destroyForcibly()).isTrue();
        process.waitFor();
        Diary.open(folder).close();
        assertThat(recordingFiles()).isEmpty();
    }

    /** Whoever presses Ctrl-C, closes the terminal or shuts the computer down leaves no half copy of the diary behind. */
    @Test
    void anExportThatIsStoppedLeavesNothingBehind() throws Exception {
        byte[] sound = new byte[60_000_000];
        new Random(SEED).nextBytes(sound);
        try (Diary diary = Diary.open(folder)) {
            Round round = diary.rounds().start(diary.persons().need("Mia").id());
            diary.takes()
                    .add(
                            new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, "long.wav"),
                            new ByteArrayInputStream(sound));
        }
        Path elsewhere = Files.createDirectory(temp.resolve("elsewhere"));
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "lungwort.cli.Main",
                        "diary",
                        "export",
                        elsewhere.resolve("copy.zip").toString(),
                        "--diary",
                        folder.toString())
                .redirectErrorStream(true)
                .redirectOutput(temp.resolve("export").toFile())
                .start();
        while (process.isAlive() && filesIn(elsewhere).isEmpty()) {
            Thread.sleep(5);
        }
        assertThat(filesIn(elsewhere))
                .as("begun, in sight, and not yet whole: %s", Files.readString(temp.resolve("export")))
                .containsExactly("copy.zip.unfinished");

        process.destroy();

        // 128 + 15: it was asked to end.
        assertThat(process.waitFor()).isEqualTo(143);
        assertThat(filesIn(elsewhere)).isEmpty();
    }

    private static List<String> filesIn(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(f -> f.getFileName().toString()).toList();
        }
    }

    private List<Path> recordingFiles() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("recordings"))) {
            return files.filter(Files::isRegularFile).toList();
        }
    }
}
