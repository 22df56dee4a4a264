package lungwort.audio;

import static lungwort.golden.Differences.worst;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.golden.Sounds;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** FLAC as the flac program and ffmpeg write it (tests/golden/make_sounds.py); every file but the streamed one carries its encoder's MD5, which is checked in reading. */
class FlacReaderTest {
    static Stream<Sounds> files() {
        return Sounds.ending(".flac");
    }

    private static Sounds file(String name) {
        return Sounds.ending(name).findFirst().orElseThrow();
    }

    @ParameterizedTest
    @MethodSource("files")
    void holdsWhatTheEncoderWasGiven(Sounds file) {
        Recording recording = RecordingReader.read(file.path());
        assertThat(worst(recording.samples(), file.truthMean())).isLessThanOrEqualTo(file.rounding());
        assertThat(recording.source())
                .isEqualTo(new SourceFormat(
                        "FLAC",
                        "FLAC",
                        file.rateHz(),
                        file.bits(),
                        file.channels(),
                        recording.source().remarks()));
        assertThat(recording.source().remarks()).hasSize(file.channels() == 1 ? 0 : 1);
    }

    @Test
    void aChecksumThatDisagreesIsASentence() {
        byte[] content = file("mono-24.flac").bytes();
        int md5At = 4 + 4 + 18;
        content[md5At] ^= 1;
        assertThatThrownBy(() -> RecordingReader.read(content, "chest.flac"))
                .isInstanceOf(BadInput.class)
                .hasMessage("chest.flac: the file is damaged at about 0.0 s (the sound does not agree with the checksum"
                        + " the file carries); copy it again or record again.");
    }

    @Test
    void damageInTheMiddleIsRefusedWithItsPlace() {
        Sounds file = file("short-blocks.flac");
        byte[] content = file.bytes();
        content[content.length / 2] ^= 0x10;
        assertThatThrownBy(() -> RecordingReader.read(content, "chest.flac"))
                .isInstanceOf(BadInput.class)
                .hasMessageMatching("chest\\.flac: the file is damaged at about 0\\.[01] s \\(.*\\); copy it .*");
    }

    @Test
    void aCutFileKeepsItsWholeFramesAndSaysSo() {
        Sounds file = file("short-blocks.flac");
        byte[] half = Arrays.copyOf(file.bytes(), file.bytes().length / 2);
        Recording recording = RecordingReader.read(half, "chest.flac");
        assertThat(recording.length()).isPositive().isLessThan(file.frames()).matches(n -> n % 17 == 0);
        assertThat(worst(recording.samples(), Arrays.copyOf(file.truth(0), recording.length())))
                .isLessThanOrEqualTo(file.rounding());
        assertThat(recording.source().remarks()).singleElement().asString().startsWith("The file is cut: 0.0 s of");
    }

    @Test
    void whatATaggerAppendedIsNoSound() {
        Sounds file = file("mono-8.flac");
        byte[] longer = Arrays.copyOf(file.bytes(), file.bytes().length + 128);
        assertThat(RecordingReader.read(longer, "tagged").length()).isEqualTo(file.frames());
    }

    @Test
    void aHeaderAloneIsASentence() {
        byte[] content = file("mono-8.flac").bytes();
        assertThatThrownBy(() -> RecordingReader.read(Arrays.copyOf(content, 20), "chest.flac"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("FLAC header is cut");
        assertThatThrownBy(() -> RecordingReader.read(Arrays.copyOf(content, 100), "chest.flac"))
                .isInstanceOf(BadInput.class);
    }
}
