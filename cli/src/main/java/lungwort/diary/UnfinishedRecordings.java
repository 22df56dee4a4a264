package lungwort.diary;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import lungwort.BadInput;
import lungwort.json.Json;

/**
 * Recordings that the page is still making, beside the diary: {@code unfinished/ID.json}, which names its {@code round}, and {@code unfinished/ID.*} with the sound. They go
 * with the round that is erased.
 */
final class UnfinishedRecordings {
    private static final String FOLDER = "unfinished";
    private static final String ABOUT = ".json";
    private static final int BEGINNING_SECONDS = 60;

    private final Path folder;

    UnfinishedRecordings(Path diaryFolder) {
        this.folder = diaryFolder.resolve(FOLDER);
    }

    /** Deletes those of rounds that are not in the diary, and those of which nobody knows the round any more. */
    void sweep(Predicate<String> roundExists) {
        if (!Files.isDirectory(folder)) {
            return;
        }
        List<Path> doomed = new ArrayList<>();
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
            for (Path file : files) {
                if (isDoomed(file, roundExists)) {
                    doomed.add(file);
                }
            }
            for (Path file : doomed) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new BadInput(
                    "An unfinished recording in %s could not be deleted (%s); check the permissions, then erase again."
                            .formatted(folder, e.getMessage()),
                    e);
        }
    }

    private boolean isDoomed(Path file, Predicate<String> roundExists) throws IOException {
        String name = file.getFileName().toString();
        int dot = name.indexOf('.');
        Path about = folder.resolve((dot < 0 ? name : name.substring(0, dot)) + ABOUT);
        if (Files.exists(about)) {
            return !roundExists.test(roundOf(about));
        }
        // One that is just being begun has its sound a moment before its round.
        Instant changed = Files.getLastModifiedTime(file).toInstant();
        return changed.isBefore(Instant.now().minusSeconds(BEGINNING_SECONDS));
    }

    private static String roundOf(Path about) throws IOException {
        try {
            return Json.parse(Files.readString(about), about.toString())
                    .path("round")
                    .asText();
        } catch (BadInput e) {
            return "";
        }
    }
}
