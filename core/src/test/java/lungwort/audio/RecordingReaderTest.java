package lungwort.audio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import lungwort.BadInput;
import lungwort.golden.Sounds;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files are known by what is in them; what cannot be read is one sentence with the file, the fault and the remedy. */
class RecordingReaderTest {
    @TempDir
    Path folder;

    /** Another module may bring a decoder for it; here is none. */
    @Test
    void aWavThatIsNotPcmIsToldByItsEncodingWhereNoDecoderTakesIt() throws IOException {
        byte[] alaw = Files.readAllBytes(Path.of("../tests/golden/sounds/telephone-alaw.wav"));
        assertThat(new WavReader().accepts(alaw)).isFalse();
        assertThatThrownBy(() -> RecordingReader.read(alaw, "chest.wav"))
                .isInstanceOf(BadInput.class)
                .hasMessage(
                        "chest.wav: its WAV encoding 0x6 cannot be read (only PCM and IEEE float can); save it as 16-bit PCM WAV.");
    }

    @Test
    void contentDecidesNotTheName() throws IOException {
        Sounds flac = Sounds.ending("mono-8.flac").findFirst().orElseThrow();
        Path misnamed = Files.copy(flac.path(), folder.resolve("breath.wav"));
        assertThat(RecordingReader.read(misnamed).source().container()).isEqualTo("FLAC");
    }

    @Test
    void aMissingFileIsASentence() {
        Path file = folder.resolve("none.wav");
        assertThatThrownBy(() -> RecordingReader.read(file))
                .isInstanceOf(BadInput.class)
                .hasMessage(file + ": there is no such file; check the name and the folder.");
    }

    @Test
    void aFolderIsASentence() {
        assertThatThrownBy(() -> RecordingReader.read(folder))
                .isInstanceOf(BadInput.class)
                .hasMessage(folder + ": this is a folder; name a sound file in it.");
    }

    @Test
    void anEmptyFileIsASentence() throws IOException {
        Path file = Files.createFile(folder.resolve("a.wav"));
        assertThatThrownBy(() -> RecordingReader.read(file))
                .isInstanceOf(BadInput.class)
                .hasMessage(file + ": the file is empty; record again.");
    }

    @Test
    void aFileOfAnotherKindIsASentenceThatNamesWhatCanBeRead() throws IOException {
        Path file = Files.writeString(folder.resolve("letter.wav"), "Dear doctor,");
        assertThatThrownBy(() -> RecordingReader.read(file))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith(file + ": this is not a sound file of a kind that can be read (WAV, FLAC")
                .hasMessageEndingWith("save or export the recording as WAV.");
    }
}
