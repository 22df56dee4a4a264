package lungwort.output;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import lungwort.BadInput;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A slip on the command line costs no recording, no diary and no device: an output replaces nothing but an older one of its kind. */
class OutputFileTest {
    private static final OutputKind PAGE = new OutputKind("a page", "<!DOCTYPE");

    @TempDir
    Path folder;

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"RIFF\4\0\0\0WAVE", "SQLite format 3\0", "<", " <!DOCTYPE html>", "\u0089PNG\r\n\u001A\n"})
    void anotherKindOfFileStaysAsItIs(String content) throws IOException {
        Path file = Files.write(folder.resolve("precious"), bytes(content));

        assertThatThrownBy(() -> OutputFile.write(file, PAGE, bytes("<!DOCTYPE html>new")))
                .isInstanceOf(BadInput.class)
                .hasMessageContainingAll("precious: this is not a page", "name another file");
        assertThatThrownBy(() -> OutputFile.check(file, PAGE)).isInstanceOf(BadInput.class);

        assertThat(file).hasBinaryContent(bytes(content));
        assertThat(names()).containsExactly("precious");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "<!DOCTYPE html>old"})
    void anOlderOneOfTheKindAndAnEmptyFileAreReplaced(String content) throws IOException {
        Path file = Files.write(folder.resolve("page.html"), bytes(content));

        OutputFile.check(file, PAGE);
        OutputFile.write(file, PAGE, bytes("<!DOCTYPE html>new"));

        assertThat(file).hasContent("<!DOCTYPE html>new");
        assertThat(names()).containsExactly("page.html");
    }

    /** Run by root, a rename would put a plain file in the place of the device. */
    @Test
    void aDeviceIsNoFile() {
        Path device = Path.of("/dev/null");
        Assumptions.assumeTrue(Files.exists(device), "skipped: this system has no /dev/null");

        assertThatThrownBy(() -> OutputFile.check(device, PAGE)).isInstanceOf(BadInput.class);
    }

    @Test
    void aMissingFolderIsASentenceBeforeAndAtTheWriting() {
        Path file = folder.resolve("nowhere").resolve("page.html");

        assertThatThrownBy(() -> OutputFile.check(file, PAGE)).hasMessageContaining("a page cannot be written there");
        assertThatThrownBy(() -> OutputFile.writePrivately(file, PAGE, bytes("x")))
                .hasMessageContaining("a page cannot be written there");
    }

    @Test
    void standardOutputIsNoFile() {
        assertThatThrownBy(() -> OutputFile.write(Path.of("-"), PAGE, bytes("<!DOCTYPE html>")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("a page is written to a file, not to standard output");
        assertThat(Path.of("-")).doesNotExist();
    }

    @Test
    void aNameTooLongForTheDiskLeavesNothingBehind() throws IOException {
        Path file = folder.resolve("x".repeat(300));

        assertThatThrownBy(() -> OutputFile.write(file, PAGE, bytes("<!DOCTYPE html>")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("check the folder and the free space");

        assertThat(names()).isEmpty();
    }

    private Stream<String> names() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> file.getFileName().toString()).toList().stream();
        }
    }
}
