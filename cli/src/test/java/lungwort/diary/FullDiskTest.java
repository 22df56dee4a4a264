package lungwort.diary;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Conditions;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FullDiskTest {
    private static final int TMPFS_KB = 512;

    /** For the few pages that a take stands on, and not for the file to be rebuilt. */
    private static final int ROOM_FOR_A_JOURNAL = 60_000;

    @TempDir
    Path temp;

    @Test
    void aDatabaseThatCannotGrowSaysSoAndKeepsWhatItHas() throws IOException {
        try (Database database = Database.open(temp.resolve("diary.sqlite"))) {
            Clock clock = Clock.systemDefaultZone();
            Persons persons = new Persons(database, clock);
            Person mia = persons.add("Mia", java.time.YearMonth.of(2021, 4), Conditions.NONE, "", ClinicianLimits.NONE);
            database.read(c -> Sql.number(c, "pragma max_page_count = 30"));
            Notes notes = new Notes(database, clock);
            List<Note> stored = new ArrayList<>();

            assertThatThrownBy(() -> {
                        while (true) {
                            stored.add(notes.add(mia.id(), null, "x".repeat(2000)));
                        }
                    })
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("is full; nothing stored was changed");

            assertThat(stored).isNotEmpty();
            assertThat(notes.ofPerson(mia.id())).containsExactlyInAnyOrderElementsOf(stored);
        }
    }

    @Test
    void aRecordingThatCannotBeWrittenLeavesNothingBehind() throws IOException {
        RecordingStore store = new RecordingStore(temp, file -> {
            Files.createFile(file);
            return new FullChannel();
        });

        assertThatThrownBy(() -> store.receive(Examples.bytes("sound"), "a.wav"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("a.wav could not be stored")
                .hasMessageContaining("No space left on device");
        try (Stream<Path> left = Files.list(temp)) {
            assertThat(left).isEmpty();
        }
    }

    @Test
    void aDiskThatFillsUpLosesNothingThatWasStored() throws Exception {
        Path disk = smallDisk();
        try {
            List<Take> stored = new ArrayList<>();
            Person mia;
            Path filler = Files.write(disk.resolve("filler"), new byte[200_000]);
            try (Diary diary = Diary.open(disk.resolve("diary"))) {
                mia = Examples.person(diary, "Mia");
                Round round = diary.rounds().start(mia.id());
                assertThatThrownBy(() -> {
                            for (int i = 0; true; i++) {
                                Take take = diary.takes()
                                        .add(
                                                new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, "a"),
                                                Examples.bytes(i + "x".repeat(10_000)));
                                diary.takes().examined(take.id(), Examples.examination(5, 30));
                                stored.add(take);
                            }
                        })
                        .isInstanceOf(BadInput.class)
                        .hasMessageMatching("(?s).*(full|could not be stored|disk).*nothing stored was changed.*");
            }
            System.out.printf("a disk of %d kB was full after %d takes%n", TMPFS_KB, stored.size());
            assertThat(stored).hasSizeGreaterThan(5);
            try (Diary diary = Diary.open(disk.resolve("diary"))) {
                for (Take take : stored) {
                    Take read = diary.takes().get(take.id());
                    assertThat(read.examination()).contains(Examples.examination(5, 30));
                    assertThat(diary.recordings().isWhole(read.recordingSha256()))
                            .isTrue();
                }
                Files.delete(filler);
                diary.eraser().take(stored.get(0).id());
                assertThat(diary.takes().ofPerson(mia.id()).stream().map(Take::id))
                        .doesNotContain(stored.get(0).id());
            }
        } finally {
            assertThat(run("umount", disk.toString())).as("unmounted").isTrue();
        }
    }

    /** A full disk has no room for the file to be rebuilt; the take goes all the same, or stays whole, and the others stay. */
    @Test
    void aTakeCanBeTakenOutOnADiskThatIsFull() throws Exception {
        Path disk = smallDisk();
        try {
            Path folder = disk.resolve("diary");
            Round round;
            Take wrong;
            try (Diary diary = Diary.open(folder)) {
                round = diary.rounds().start(Examples.person(diary, "Mia").id());
                for (String site : List.of("neck", "back-lower-left")) {
                    Take take = diary.takes()
                            .add(
                                    new NewTake(round.id(), Sites.of(site), TakeReason.FIRST, "a"),
                                    Examples.bytes(site + "x".repeat(10_000)));
                    diary.takes().examined(take.id(), Examples.examination(5, 30));
                }
                List<Take> before = diary.takes().ofRound(round.id());
                wrong = before.get(0);
                fill(disk);

                assertThatThrownBy(() -> diary.eraser().takeOut(wrong.id(), () -> {}))
                        .isInstanceOf(BadInput.class)
                        .hasMessageContaining("nothing stored was changed");
                assertThat(diary.takes().ofRound(round.id())).isEqualTo(before);
                assertThat(diary.recordings().isWhole(wrong.recordingSha256())).isTrue();

                Files.delete(disk.resolve("filler"));
                Files.write(disk.resolve("filler"), new byte[(int) (room(disk) - ROOM_FOR_A_JOURNAL)]);
                diary.eraser().takeOut(wrong.id(), () -> {});
                assertThat(diary.takes().ofRound(round.id())).containsExactly(before.get(1));
                assertThat(diary.recordings().hashes())
                        .containsExactly(before.get(1).recordingSha256());
            }
        } finally {
            assertThat(run("umount", disk.toString())).as("unmounted").isTrue();
        }
    }

    /** An erasure that was cut short is ended at the next start; where the disk is too full to rebuild the file, that must keep nobody from the diary. */
    @Test
    void anErasureThatCannotBeEndedYetKeepsNobodyFromTheDiary() throws Exception {
        Path disk = smallDisk();
        try {
            Path folder = disk.resolve("diary");
            Person mia;
            try (Diary diary = Diary.open(folder)) {
                mia = Examples.person(diary, "Mia");
            }
            try (Database database = Database.open(folder.resolve(Diary.FILE_NAME))) {
                database.write(c -> {
                    Eraser.begin(c);
                    return true;
                });
            }
            fill(disk);
            try (Diary diary = Diary.open(folder)) {
                assertThat(diary.persons().all()).containsExactly(mia);
            }
            Files.delete(disk.resolve("filler"));
            Diary.open(folder).close();
            try (Database database = Database.open(folder.resolve(Diary.FILE_NAME))) {
                assertThat(database.<Long>read(
                                c -> Sql.number(c, "select count(*) from setting where name = ?", Eraser.BEGUN)))
                        .as("ended once there was room")
                        .isZero();
            }
        } finally {
            assertThat(run("umount", disk.toString())).as("unmounted").isTrue();
        }
    }

    private static long room(Path disk) throws IOException {
        return Files.getFileStore(disk).getUsableSpace();
    }

    private static void fill(Path disk) throws IOException {
        Files.write(disk.resolve("filler"), new byte[(int) room(disk)]);
        assertThat(room(disk)).isZero();
    }

    /** A file system of its own in memory; only root may make one. */
    private Path smallDisk() throws Exception {
        Path disk = Files.createDirectory(temp.resolve("disk"));
        boolean mounted = run("mount", "-t", "tmpfs", "-o", "size=" + TMPFS_KB + "k", "tmpfs", disk.toString());
        Assumptions.assumeTrue(mounted, () -> {
            System.out.println(
                    "SKIPPED: no small disk can be mounted here (needs root), so a really full disk was not tried");
            return "no tmpfs";
        });
        return disk;
    }

    private static boolean run(String... command) throws InterruptedException {
        try {
            Process process =
                    new ProcessBuilder(command).redirectErrorStream(true).start();
            System.out.print(new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8));
            boolean ended = process.waitFor(20, TimeUnit.SECONDS);
            return ended && process.exitValue() == 0;
        } catch (IOException e) {
            return false;
        }
    }
}
