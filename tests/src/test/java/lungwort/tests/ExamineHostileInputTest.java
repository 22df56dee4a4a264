package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;
import lungwort.practice.PracticeScenes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Bad input to {@code examine} gets one clear sentence and exit 1; what can be read but not judged gets "cannot tell" with the reason. */
class ExamineHostileInputTest {
    @TempDir
    Path folder;

    @Test
    void aMissingFileIsNamed() {
        assertRefused(folder.resolve("nothing-here.wav"), "nothing-here.wav");
    }

    @Test
    void anEmptyFileIsRefused() throws IOException {
        assertRefused(Files.createFile(folder.resolve("empty.wav")), "empty.wav");
    }

    @Test
    void aFolderWithoutRecordingsIsRefused() {
        assertRefused(folder, folder.toString());
    }

    @Test
    void textUnderAWavNameIsRefused() throws IOException {
        assertRefused(Files.writeString(folder.resolve("letter.wav"), "Dear doctor, ".repeat(40)), "letter.wav");
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void randomBytesAreRefused(long seed) throws IOException {
        byte[] noise = new byte[5000];
        new Random(seed).nextBytes(noise);
        assertRefused(Files.write(folder.resolve("noise-" + seed), noise), "noise-" + seed);
    }

    @ParameterizedTest
    @ValueSource(ints = {4, 12, 20, 30, 40, 43})
    void aFileCutInsideItsHeaderIsRefused(int length) throws IOException {
        byte[] cut = Arrays.copyOf(usual(), length);
        assertRefused(Files.write(folder.resolve("cut.wav"), cut), "cut.wav");
    }

    @Test
    void aHeaderThatClaimsGigabytesDoesNotTakeThem() throws IOException {
        byte[] wav = usual();
        ByteBuffer.wrap(wav)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putInt(4, Integer.MAX_VALUE)
                .putInt(40, Integer.MAX_VALUE - 100);
        Run run = Run.lungwort("examine", Files.write(folder.resolve("huge.wav"), wav));
        assertThat(run.exit()).isZero();
        assertThat(run.out()).contains("huge.wav");
    }

    @Test
    void silenceIsJudgedAsSilenceNeverAsAQuietChest() throws IOException {
        Path file = folder.resolve("silence.wav");
        WavWriter.write(file, new Recording(new double[8000 * 10], 8000, "silence"), WavWriter.Encoding.PCM_16);
        Run run = Run.lungwort("examine", file);
        assertThat(run.exit()).isZero();
        assertThat(run.out()).contains("cannot tell").contains("holds no sound");
    }

    @Test
    void oneBadFileDoesNotHideTheGoodOnes() throws IOException {
        Path good = Files.write(folder.resolve("good.wav"), usual());
        Path bad = Files.writeString(folder.resolve("bad.wav"), "RIFF");
        Run run = Run.lungwort("examine", bad, good);
        assertThat(run.exit()).isEqualTo(1);
        assertThat(run.out()).contains("good.wav").contains("suggests, it does not diagnose");
        assertThat(run.err()).contains("bad.wav").doesNotContain("good.wav");
    }

    @Test
    void aPictureThatCannotBeWrittenIsASentence() throws IOException {
        Path good = Files.write(folder.resolve("good.wav"), usual());
        Run run = Run.lungwort(
                "examine", good, "--picture", folder.resolve("no-such-folder").resolve("p.png"));
        assertThat(run.exit()).isEqualTo(1);
        assertOneSentence(run);
    }

    @Test
    void aModelThatIsNoModelIsRefused() throws IOException {
        Path good = Files.write(folder.resolve("good.wav"), usual());
        Path model = Files.writeString(folder.resolve("model.lungwort"), "PK not a model");
        Run run = Run.lungwort("examine", good, "--model", model);
        assertThat(run.exit()).isEqualTo(1);
        assertOneSentence(run);
        assertThat(run.err()).contains("model.lungwort");
    }

    @Test
    void nothingToExamineIsBadUsage() {
        assertThat(Run.lungwort("examine").exit()).isEqualTo(2);
        assertThat(Run.lungwort("examine", "--no-such-option").exit()).isEqualTo(2);
    }

    private void assertRefused(Path file, String named) {
        Run run = Run.lungwort("examine", file);
        assertThat(run.exit()).isEqualTo(1);
        assertThat(run.out()).isEmpty();
        assertThat(run.err()).contains(named);
        assertOneSentence(run);
    }

    private static void assertOneSentence(Run run) {
        assertThat(run.err().strip().lines()).hasSize(1);
        assertThat(run.err())
                .startsWith("lungwort: ")
                .doesNotContain("Exception")
                .doesNotContain("\tat ");
        assertThat(run.err().strip()).endsWith(".");
    }

    private static byte[] usual() {
        return WavWriter.toBytes(
                PracticeScenes.of("usual").scene().synthesise().recording().slice(0, 6), WavWriter.Encoding.PCM_16);
    }
}
