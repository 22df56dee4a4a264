package lungwort.tests;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Databases;
import org.junit.jupiter.api.Assumptions;

/** Recordings of the public databases, for tests that are skipped, and say so, where these are missing. */
public final class PublicData {
    private PublicData() {}

    /** The training set's recordings that have audio. */
    public static List<AnnotatedRecording> training(DatabaseKind kind) {
        return open(kind).withAudio("train");
    }

    /** The database, whatever of it is there. */
    public static Database open(DatabaseKind kind) {
        String folder = System.getProperty("LUNGWORT_DATA", System.getenv("LUNGWORT_DATA"));
        Optional<Path> root =
                folder == null || folder.isBlank() ? Optional.empty() : Databases.find(Path.of(folder), kind);
        String reason = "skipped: %s is not there; set LUNGWORT_DATA to the folder that holds %s"
                .formatted(kind.title(), kind.folderName());
        if (root.isEmpty()) {
            System.out.println(reason);
        }
        Assumptions.assumeTrue(root.isPresent(), reason);
        return Databases.open(root.orElseThrow(), kind);
    }
}
