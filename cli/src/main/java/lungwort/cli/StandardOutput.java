package lungwort.cli;

import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.Charset;
import org.jspecify.annotations.Nullable;

/**
 * Standard output that remembers that it could not be written: the platform's own forgets it, and a table sent to a file on a full disk would be cut without a word. Who reads only the beginning of it
 * ({@code | head}) has got what was asked for: that is no fault.
 */
final class StandardOutput extends OutputStream {
    private final OutputStream sink;
    private @Nullable IOException first;

    StandardOutput(OutputStream sink) {
        this.sink = sink;
    }

    /** Puts it in the place of {@link System#out}, in the same character set. */
    static StandardOutput install() {
        StandardOutput out = new StandardOutput(new FileOutputStream(FileDescriptor.out));
        String named = System.getProperty("stdout.encoding", System.getProperty("sun.stdout.encoding"));
        Charset charset = named == null ? Charset.defaultCharset() : Charset.forName(named);
        System.setOut(new PrintStream(new BufferedOutputStream(out, 8192), true, charset));
        return out;
    }

    /** The exit code, once all is written: 1 with a sentence where it could not be, though somebody still wanted it. */
    int written(int code, PrintStream err) {
        System.out.flush();
        String why = first == null ? "" : String.valueOf(first.getMessage());
        if (first == null || why.contains("Broken pipe")) {
            return code;
        }
        err.println("lungwort: what was printed could not be written whole (" + why
                + "); make room, or send it to another file.");
        return code == 0 ? Main.EXIT_BAD_INPUT : code;
    }

    @Override
    public void write(int b) throws IOException {
        write(new byte[] {(byte) b}, 0, 1);
    }

    @Override
    public void write(byte[] bytes, int from, int length) throws IOException {
        try {
            sink.write(bytes, from, length);
        } catch (IOException e) {
            first = first == null ? e : first;
            throw e;
        }
    }

    @Override
    public void flush() throws IOException {
        sink.flush();
    }
}
