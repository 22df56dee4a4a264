package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/** What is printed to a file on a full disk is not cut without a word. */
class StandardOutputTest {
    private final ByteArrayOutputStream told = new ByteArrayOutputStream();
    private final PrintStream err = new PrintStream(told, true, StandardCharsets.UTF_8);

    private static OutputStream failing(String why) {
        return new OutputStream() {
            @Override
            public void write(int b) throws IOException {
                throw new IOException(why);
            }
        };
    }

    private int codeAfterWriting(OutputStream sink) {
        return codeAfterWriting(sink, 0);
    }

    private int codeAfterWriting(OutputStream sink, int code) {
        StandardOutput out = new StandardOutput(sink);
        new PrintStream(out, true, StandardCharsets.UTF_8).println("a table");
        return out.written(code, err);
    }

    @Test
    void aFullDiskIsToldInASentenceAndTheExitCode() {
        assertThat(codeAfterWriting(failing("No space left on device"))).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(told.toString(StandardCharsets.UTF_8))
                .contains("could not be written whole (No space left on device)")
                .hasLineCount(1);
    }

    /** Whether the reader left before or after the last line was written is chance; the exit code must not depend on it. */
    @Test
    void whoReadsOnlyTheBeginningGetsNoMessageAndNoFault() {
        assertThat(codeAfterWriting(failing("Broken pipe"))).isZero();
        assertThat(codeAfterWriting(failing("Broken pipe"), Main.EXIT_BAD_INPUT))
                .isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(told.size()).isZero();
    }

    @Test
    void whatIsWrittenKeepsTheCode() throws IOException {
        ByteArrayOutputStream sink = new ByteArrayOutputStream();
        assertThat(codeAfterWriting(sink)).isZero();
        assertThat(sink.toString(StandardCharsets.UTF_8)).startsWith("a table");
        assertThatThrownBy(() -> new StandardOutput(failing("x")).write(1)).isInstanceOf(IOException.class);
    }
}
