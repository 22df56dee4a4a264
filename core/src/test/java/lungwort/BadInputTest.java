package lungwort;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BadInputTest {
    @Test
    void aNameWithLineEndsAndTerminalCodesStaysOneHarmlessLine(@TempDir Path folder) {
        Path file = folder.resolve("chest\n\u001b[2J.wav");
        assertThat(org.assertj.core.api.Assertions.catchThrowable(() -> RecordingReader.read(file)))
                .isInstanceOf(BadInput.class)
                .hasMessageEndingWith("chest??[2J.wav: there is no such file; check the name and the folder.");
    }

    @Test
    void aRecordingIsNamedOnOneHarmlessLineToo() {
        assertThat(new Recording(new double[8], 8_000, "a\nb\u001b[31m.wav").origin())
                .isEqualTo("a?b?[31m.wav");
    }

    @Test
    void lettersOfEveryScriptStay() {
        assertThat(new BadInput("Lungenhörprobe Ωμέγα 胸.wav: it is cut."))
                .hasMessage("Lungenhörprobe Ωμέγα 胸.wav: it is cut.");
    }

    @Test
    void aCauseIsKept() {
        IllegalStateException cause = new IllegalStateException("lower");
        assertThat(BadInput.because(cause, "%s: %.1f s are missing.", "a.wav", 1.5))
                .hasMessage("a.wav: 1.5 s are missing.")
                .hasCause(cause);
    }
}
