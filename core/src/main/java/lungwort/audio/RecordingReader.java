package lungwort.audio;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.ServiceLoader;
import java.util.stream.Collectors;
import lungwort.BadInput;

/**
 * Reads any sound file that a decoder is at hand for, chosen by its content and never by its name: WAV and FLAC here, others where a module brings an {@link AudioDecoder}.
 *
 * <pre>{@code
 * Recording chest = RecordingReader.read(Path.of("left-base.wav"));
 * }</pre>
 */
public final class RecordingReader {
    /** Largest file read. */
    public static final int MAX_FILE_BYTES = 256 << 20;

    private RecordingReader() {}

    /** As {@link #read(Path, ReadingOptions)} with {@link ReadingOptions#DEFAULT}. */
    public static Recording read(Path file) {
        return read(file, ReadingOptions.DEFAULT);
    }

    /**
     * Reads a file.
     *
     * @param file any file; sentences name it as given, the recording's origin is its last part
     * @throws BadInput if it is missing, a folder, unreadable, too large, of no known kind, damaged or without sound
     */
    public static Recording read(Path file, ReadingOptions options) {
        String name = file.toString();
        Recording recording = read(load(file), name, options);
        Path last = file.getFileName();
        return last == null ? recording : recording.withOrigin(last.toString());
    }

    /** As {@link #read(byte[], String, ReadingOptions)} with {@link ReadingOptions#DEFAULT}. */
    public static Recording read(byte[] content, String name) {
        return read(content, name, ReadingOptions.DEFAULT);
    }

    /**
     * Reads a file that is in memory already.
     *
     * @param content a whole file, as an upload brings it; only read
     * @param name for sentences and as the recording's origin
     * @throws BadInput if it is empty, too large, of no known kind, damaged or without sound
     */
    public static Recording read(byte[] content, String name, ReadingOptions options) {
        if (content.length == 0) {
            throw new BadInput(name + ": the file is empty; record again.");
        }
        if (content.length > MAX_FILE_BYTES) {
            throw tooLarge(name);
        }
        byte[] head = Arrays.copyOf(content, Math.min(content.length, AudioDecoder.HEAD_BYTES));
        for (AudioDecoder decoder : decoders()) {
            if (decoder.accepts(head)) {
                return decoder.decode(content, name, options);
            }
        }
        if (WavReader.isWave(head)) {
            // No decoder at hand reads its encoding: the reader says so.
            return new WavReader().decode(content, name, options);
        }
        throw unknown(name);
    }

    private static byte[] load(Path file) {
        if (Files.isDirectory(file)) {
            throw new BadInput(file + ": this is a folder; name a sound file in it.");
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] content = in.readNBytes(MAX_FILE_BYTES + 1);
            if (content.length > MAX_FILE_BYTES) {
                throw tooLarge(file.toString());
            }
            return content;
        } catch (NoSuchFileException e) {
            throw new BadInput(file + ": there is no such file; check the name and the folder.", e);
        } catch (AccessDeniedException e) {
            throw new BadInput(file + ": you are not allowed to read this file; change its permissions.", e);
        } catch (IOException e) {
            throw BadInput.because(
                    e, "%s: it cannot be read (%s); check the disk or the card it is on.", file, e.getMessage());
        }
    }

    private static BadInput tooLarge(String name) {
        return BadInput.of(
                "%s: it is larger than the %d MB that can be read; cut it, or save it with one channel.",
                name, MAX_FILE_BYTES >> 20);
    }

    private static BadInput unknown(String name) {
        String known = decoders().stream().map(AudioDecoder::formats).collect(Collectors.joining(", "));
        return BadInput.of(
                "%s: this is not a sound file of a kind that can be read (%s); save or export the recording as WAV.",
                name, known);
    }

    /** WAV and FLAC, then what other modules bring. Loaded at each call: the loader is not made for several threads. */
    private static List<AudioDecoder> decoders() {
        List<AudioDecoder> all = new ArrayList<>();
        all.add(new WavReader());
        all.add(new FlacReader());
        ServiceLoader.load(AudioDecoder.class, RecordingReader.class.getClassLoader())
                .forEach(all::add);
        return all;
    }
}
