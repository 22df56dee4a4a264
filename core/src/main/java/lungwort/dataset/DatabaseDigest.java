package lungwort.dataset;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.Sha256;

/** The digests of a set of recordings: what was trained on or scored, in 64 hex digits. */
final class DatabaseDigest {
    private DatabaseDigest() {}

    /** Lines sorted by split and id, so that the order of a folder's listing does not matter; times to 0.1 ms. */
    static String of(List<AnnotatedRecording> recordings) {
        MessageDigest sha = Sha256.start();
        recordings.stream()
                .sorted(Comparator.comparing(AnnotatedRecording::split).thenComparing(AnnotatedRecording::id))
                .forEach(r -> sha.update(line(r).getBytes(StandardCharsets.UTF_8)));
        return Sha256.hex(sha);
    }

    /** Of the lines that {@code sha256sum} prints for the audio files, sorted by file name. */
    static String ofAudio(List<AnnotatedRecording> recordings) {
        return Sha256.hex(recordings.stream()
                .map(AnnotatedRecording::audio)
                .sorted(Comparator.comparing(DatabaseDigest::name))
                .map(DatabaseDigest::audioLine)
                .collect(Collectors.joining()));
    }

    private static String line(AnnotatedRecording r) {
        StringBuilder line = new StringBuilder(String.join(
                "\t",
                r.split().id(),
                r.id(),
                Long.toString(r.audioBytes()),
                r.label().id()));
        for (AnnotatedEvent event : r.events()) {
            line.append(String.format(
                    Locale.ROOT,
                    "\t%.4f %.4f %s",
                    event.startSeconds(),
                    event.endSeconds(),
                    event.label().id()));
        }
        return line.append('\n').toString();
    }

    private static String audioLine(Path audio) {
        try (InputStream in = Files.newInputStream(audio)) {
            return Sha256.hex(in) + "  " + name(audio) + "\n";
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", audio, e.getMessage());
        }
    }

    private static String name(Path audio) {
        return audio.getFileName().toString();
    }
}
