package lungwort.dataset;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.Optional;

/** Finds the public databases for tests by the system property or environment variable LUNGWORT_DATA, and says aloud when they are not there. */
public final class OpenData {
    private OpenData() {}

    /** The database of a kind; the test is skipped where it is not there. */
    public static Database open(DatabaseKind kind) {
        String folder = System.getProperty("LUNGWORT_DATA", System.getenv("LUNGWORT_DATA"));
        Optional<Path> root =
                folder == null || folder.isBlank() ? Optional.empty() : Databases.find(Path.of(folder), kind);
        String reason = "skipped: %s is not there; set LUNGWORT_DATA to the folder that holds %s"
                .formatted(kind.title(), kind.folderName());
        if (root.isEmpty()) {
            System.out.println(reason);
        }
        assumeTrue(root.isPresent(), reason);
        return Databases.open(Path.of(folder), kind);
    }
}
