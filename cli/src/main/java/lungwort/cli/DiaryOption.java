package lungwort.cli;

import java.nio.file.Path;
import lungwort.diary.Diary;
import lungwort.diary.DiaryFolder;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which diary. */
final class DiaryOption {
    @Option(
            names = "--diary",
            paramLabel = "DIR",
            description =
                    "Folder of the diary; without it, the one that LUNGWORT_DIARY names, else your own data folder.")
    private @Nullable Path folder;

    /** Opens the diary, beginning one where there is none. */
    Diary open() {
        return Diary.open(DiaryFolder.locate(folder));
    }
}
