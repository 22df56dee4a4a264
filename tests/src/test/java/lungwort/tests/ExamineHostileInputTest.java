package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
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
    void aRecordingOfTwoHoursIsRefusedByItsLength() throws IOException {
        Path file = zeros("night.wav", 4_000, 1, 8, 7_200);
        assertRefused(file, "longer than the 10 minutes");
    }

    @Test
    void eightChannelsAt192KilohertzAreRead() throws IOException {
        Run run = Run.lungwort("examine", zeros("studio.wav", 192_000, 8, 24, 3));
        assertThat(run.exit()).isZero();
        assertThat(run.out()).contains("The mean of its 8 channels was taken");
    }

    @Test
    void aMemoryThatIsTooSmallIsOneSentence() throws Exception {
        Path file = zeros("long.wav", 48_000, 1, 8, 590);
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xmx160m",
                        "-cp",
                        System.getProperty("java.class.path"),
                        "lungwort.cli.Main",
                        "examine",
                        file.toString())
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor()).isEqualTo(1);
        assertOneSentence(new Run(1, "", said));
        assertThat(said).contains("long.wav").contains("too little memory");
    }

    /** A recording of zeros that takes no room on the disk. */
    private Path zeros(String name, int rateHz, int channels, int bits, int seconds) throws IOException {
        int frameBytes = channels * bits / 8;
        int dataBytes = rateHz * frameBytes * seconds;
        ByteBuffer header = ByteBuffer.allocate(44).order(ByteOrder.LITTLE_ENDIAN);
        header.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + dataBytes);
        header.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
        header.putShort((short) 1).putShort((short) channels).putInt(rateHz);
        header.putInt(rateHz * frameBytes).putShort((short) frameBytes).putShort((short) bits);
        header.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(dataBytes);
        Path file = Files.write(folder.resolve(name), header.array());
        try (FileChannel end = FileChannel.open(file, StandardOpenOption.WRITE)) {
            end.write(ByteBuffer.wrap(new byte[1]), 43L + dataBytes);
        }
        return file;
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
        assertThat(run.out()).as("what was heard is told all the same").contains("good.wav");
    }

    @Test
    void aPictureIsNeverWrittenOverTheRecording() throws IOException {
        byte[] recording = usual();
        Path file = Files.write(folder.resolve("only-one.wav"), recording);
        Run run = Run.lungwort("examine", file, "--picture", file);
        assertThat(run.exit()).isEqualTo(1);
        assertOneSentence(run);
        assertThat(run.err()).contains("only-one.wav").contains("this is not a picture");
        assertThat(file).hasBinaryContent(recording);
    }

    @Test
    void anEmptyNameIsNotTheCurrentFolder() {
        Run run = Run.lungwort("examine", "");
        assertThat(run.exit()).isEqualTo(1);
        assertOneSentence(run);
        assertThat(run.err()).contains("The name of a recording is empty");
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
