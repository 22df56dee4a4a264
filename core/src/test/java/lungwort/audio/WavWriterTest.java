package lungwort.audio;

import static lungwort.golden.Differences.worst;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is written is read back; header bytes are those of the RIFF WAVE specification. */
class WavWriterTest {
    @TempDir
    Path folder;

    private static Recording noise(int length) {
        return new Recording(new Random(3).doubles(length, -1, 1).toArray(), 8_000, "noise");
    }

    @Test
    void sixteenBitsComeBackWithinHalfAStepAndThenExactly() {
        Recording first = noise(999);
        Recording once = RecordingReader.read(WavWriter.toBytes(first, WavWriter.Encoding.PCM_16), "once");
        assertThat(worst(once.samples(), first.samples())).isLessThanOrEqualTo(1 / 32_768.0);
        byte[] twice = WavWriter.toBytes(once, WavWriter.Encoding.PCM_16);
        assertThat(RecordingReader.read(twice, "twice").samples()).containsExactly(once.samples());
    }

    @Test
    void floatsComeBackWithoutClipping() {
        Recording loud = new Recording(new double[] {1.5, -2, 0.1}, 44_100, "loud");
        Recording back = RecordingReader.read(WavWriter.toBytes(loud, WavWriter.Encoding.FLOAT_32), "back");
        assertThat(back.samples()).containsExactly(new double[] {1.5, -2, 0.1}, within(1e-8));
        assertThat(back.sampleRateHz()).isEqualTo(44_100);
    }

    @Test
    void sixteenBitsClipAtFullScale() {
        Recording loud = new Recording(new double[] {1.5, -2, 1}, 8_000, "loud");
        Recording back = RecordingReader.read(WavWriter.toBytes(loud, WavWriter.Encoding.PCM_16), "back");
        assertThat(back.samples()).containsExactly(32_767 / 32_768.0, -1, 32_767 / 32_768.0);
    }

    @Test
    void aFileIsWrittenWholeAndNothingIsLeftBeside() throws IOException {
        Path file = folder.resolve("a.wav");
        WavWriter.write(file, noise(10), WavWriter.Encoding.PCM_16);
        WavWriter.write(file, noise(20), WavWriter.Encoding.PCM_16);
        assertThat(RecordingReader.read(file).length()).isEqualTo(20);
        try (var files = Files.list(folder)) {
            assertThat(files).containsExactly(file);
        }
    }

    @Test
    void aFolderThatIsNotThereIsASentence() {
        Path file = folder.resolve("none").resolve("a.wav");
        assertThatThrownBy(() -> WavWriter.write(file, noise(10), WavWriter.Encoding.PCM_16))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("a.wav: it cannot be written")
                .hasMessageContaining("check that the folder exists");
    }
}
