package lungwort.diary;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Archives that lie in the diary's folder only while they are sent or taken in. They hold all that a diary holds, so one that a process left behind when it was stopped by force must go: it would outlast
 * the erasing of the person.
 */
final class PassingArchives {
    private static final Pattern NAME =
            Pattern.compile("\\.?unfinished-(?:export|import)-(?:(\\d+)-)?[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}"
                    + "\\.zip(?:\\.part|\\.unfinished)?");

    /** Those of older versions do not name their process; none takes so long. */
    private static final Duration LONGEST = Duration.ofDays(1);

    private final Path folder;

    PassingArchives(Path diaryFolder) {
        this.folder = diaryFolder;
    }

    /** A name for one that this process makes and deletes; nothing is there yet. */
    Path next(String what) {
        return folder.resolve("unfinished-%s-%d-%s.zip"
                .formatted(what, ProcessHandle.current().pid(), UUID.randomUUID()));
    }

    /** Deletes those of processes that no longer run. */
    void sweep() throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "{.,}unfinished-*")) {
            for (Path file : files) {
                Matcher matcher = NAME.matcher(file.getFileName().toString());
                if (matcher.matches() && isLeft(matcher.group(1), file)) {
                    Files.deleteIfExists(file);
                }
            }
        }
    }

    private static boolean isLeft(@Nullable String process, Path file) throws IOException {
        return process == null
                ? Files.getLastModifiedTime(file)
                        .toInstant()
                        .isBefore(Instant.now().minus(LONGEST))
                : RecordingStore.hasEnded(process);
    }
}
