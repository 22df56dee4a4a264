package lungwort.dataset;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lungwort.BadInput;
import lungwort.Sha256;

/**
 * Recordings that hold the same sound, byte for byte: one that was copied counts twice, and under another patient's name folds by patient learn from what they score. The complete releases hold none.
 */
final class SameSound {
    /** Files of the same size are compared by their beginning first, since a database is large: the header and about half a second. */
    private static final int BEGINNING_BYTES = 8192;

    private SameSound() {}

    /** @throws BadInput if a file cannot be read */
    static void warn(List<AnnotatedRecording> recordings, Warnings warnings) {
        Map<String, AnnotatedRecording> byBeginning = new HashMap<>();
        Map<String, AnnotatedRecording> bySound = new HashMap<>();
        for (AnnotatedRecording r : recordings) {
            if (!r.hasAudio()) {
                continue;
            }
            AnnotatedRecording alike = byBeginning.putIfAbsent(r.audioBytes() + " " + digest(r, BEGINNING_BYTES), r);
            if (alike == null) {
                continue;
            }
            bySound.putIfAbsent(digest(alike, Integer.MAX_VALUE), alike);
            AnnotatedRecording same = bySound.putIfAbsent(digest(r, Integer.MAX_VALUE), r);
            if (same != null) {
                boolean onePatient = same.patient().equals(r.patient());
                warnings.countIf(
                        true,
                        onePatient
                                ? "recordings that hold the same sound as another one of their patient, byte for byte"
                                : "recordings that hold the same sound as one of another patient, byte for byte, so that folds by patient learn from what they score",
                        r.id() + " as " + same.id());
            }
        }
    }

    private static String digest(AnnotatedRecording r, int bytes) {
        try (InputStream in = Files.newInputStream(r.audio())) {
            return bytes == Integer.MAX_VALUE ? Sha256.hex(in) : Sha256.hex(in.readNBytes(bytes));
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", r.audio(), e.getMessage());
        }
    }
}
