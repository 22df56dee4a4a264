package lungwort.dataset;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;

/** The digest of a set of recordings: what was trained on, in 64 hex digits. */
final class DatabaseDigest {
    private DatabaseDigest() {}

    /** Lines sorted by split and id, so that the order of a folder's listing does not matter; times to 0.1 ms. */
    static String of(List<AnnotatedRecording> recordings) {
        MessageDigest sha = sha256();
        recordings.stream()
                .sorted(Comparator.comparing(AnnotatedRecording::split).thenComparing(AnnotatedRecording::id))
                .forEach(r -> sha.update(line(r).getBytes(StandardCharsets.UTF_8)));
        return HexFormat.of().formatHex(sha.digest());
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

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must have SHA-256", e);
        }
    }
}
