package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.golden.Differences;
import lungwort.golden.Sounds;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What every reader and decoder owes whoever hands it a file: a recording of finite samples within the limits, or one sentence that names the file; never another exception.
 * Each file of tests/golden/sounds goes through it.
 */
class ReaderContractTest {
    private static final long SEED = 20_261_125;
    /** Damaged copies of each file in each test; {@code -Dlungwort.fuzzRounds=2000} looks longer. */
    private static final int ROUNDS = Integer.getInteger("lungwort.fuzzRounds", 50);

    private static final String NAME = "chest.sound";

    static Stream<Sounds> files() {
        return Sounds.ending("").filter(file -> !file.container().equals("ffmpeg"));
    }

    @ParameterizedTest
    @MethodSource("files")
    void readsTheWholeFileTheSameEachTime(Sounds file) {
        Recording once = RecordingReader.read(file.path());
        Recording twice = RecordingReader.read(file.bytes(), file.toString());
        assertThat(Differences.worst(once.samples(), twice.samples())).isZero();
        assertThat(once.source()).isEqualTo(twice.source());
    }

    @ParameterizedTest
    @MethodSource("files")
    void survivesACutAnywhere(Sounds file) {
        byte[] content = file.bytes();
        int whole = RecordingReader.read(content, NAME).length();
        int step = Math.max(1, content.length / ROUNDS);
        for (int length = 0; length < content.length; length += length < 60 ? 1 : step) {
            int read = check(Arrays.copyOf(content, length), file + " cut to " + length + " bytes");
            // A decoder that no longer knows where the sound ends may give the encoder's padding too.
            assertThat(read).as("%s cut to %d bytes", file, length).isLessThanOrEqualTo(whole + 4_096);
        }
    }

    @ParameterizedTest
    @MethodSource("files")
    void survivesWrongBytesAnywhere(Sounds file) {
        Random random = new Random(SEED);
        byte[] content = file.bytes();
        for (int round = 0; round < ROUNDS; round++) {
            byte[] wrong = content.clone();
            // Headers are where most can go wrong: half of the faults are put into the first bytes.
            int reach = round % 2 == 0 ? Math.min(200, wrong.length) : wrong.length;
            int faults = 1 + random.nextInt(3);
            for (int i = 0; i < faults; i++) {
                wrong[random.nextInt(reach)] = (byte) random.nextInt(256);
            }
            check(wrong, "%s, seed %d, round %d".formatted(file, SEED, round));
        }
    }

    @ParameterizedTest
    @MethodSource("files")
    void survivesRandomBytesBehindItsFirstOnes(Sounds file) {
        Random random = new Random(SEED + 1);
        byte[] content = file.bytes();
        for (int round = 0; round < ROUNDS / 2; round++) {
            byte[] wrong = new byte[1 + random.nextInt(3_000)];
            random.nextBytes(wrong);
            int kept = Math.min(wrong.length, 4 + random.nextInt(Math.min(400, content.length)));
            System.arraycopy(content, 0, wrong, 0, Math.min(kept, content.length));
            check(wrong, "%s, seed %d, round %d".formatted(file, SEED + 1, round));
        }
    }

    /** Number of samples read, 0 where the file was refused. */
    private static int check(byte[] content, String what) {
        try {
            Recording recording = RecordingReader.read(content, NAME);
            assertThat(recording.length()).as(what).isPositive();
            return recording.length();
        } catch (BadInput sentence) {
            assertThat(sentence.getMessage())
                    .as(what)
                    .startsWith(NAME + ": ")
                    .doesNotContain("\n")
                    .endsWith(".");
            return 0;
        } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
            throw new AssertionError(what, e);
        }
    }
}
