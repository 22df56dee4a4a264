package lungwort.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.Callable;
import lungwort.diary.Archive;
import lungwort.diary.Diary;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Copies of the diary. */
final class DiaryCopyCommands {
    private DiaryCopyCommands() {}

    /** Writes an archive. */
    @Command(
            name = "export",
            mixinStandardHelpOptions = true,
            description =
                    "Write the diary, or one person's part, with all recordings into one zip file. It is not encrypted: keep it safe.",
            footer = {"", "Example: lungwort diary export copy-of-march.zip"})
    static final class Export implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(paramLabel = "FILE.zip", description = "Where to; there must be no such file yet.")
        private Path file = Path.of("");

        @Mixin
        private final DiaryOption diaryOption = new DiaryOption();

        @Option(names = "--person", paramLabel = "NICKNAME", description = "Only this person.")
        private @Nullable String nickname;

        @Override
        public Integer call() {
            PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
            try (Diary diary = diaryOption.open()) {
                UUID person =
                        nickname == null ? null : diary.persons().need(nickname).id();
                Archive.Exported exported = diary.archive().write(file, person);
                out.printf(
                        "%s: %s, %s, %s%n",
                        file,
                        RoundText.count(exported.rounds(), "round"),
                        RoundText.count(exported.takes(), "take"),
                        RoundText.count(exported.recordings(), "recording"));
                exported.missing()
                        .forEach(hash -> out.printf(
                                "WARNING: the recording %s is missing or damaged in this diary and so not in the copy.%n",
                                hash));
                out.println("It is not encrypted; whoever has the file can read and hear everything in it.");
                out.flush();
                return 0;
            }
        }
    }

    /** Takes an archive in. */
    @Command(
            name = "import",
            mixinStandardHelpOptions = true,
            description =
                    "Take in what `diary export` wrote: everything is checked first, what is here stays, nothing is lost.",
            footer = {"", "Example: lungwort diary import copy-of-march.zip"})
    static final class Import implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(paramLabel = "FILE.zip", description = "The archive.")
        private Path file = Path.of("");

        @Mixin
        private final DiaryOption diaryOption = new DiaryOption();

        @Override
        public Integer call() {
            PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
            try (Diary diary = diaryOption.open()) {
                Archive.Imported imported = diary.archive().read(file);
                Archive.Added added = imported.added();
                out.printf(
                        "new here: %s, %s, %s, %s, %s, %s%n",
                        RoundText.count(added.persons(), "person"),
                        RoundText.count(added.rounds(), "round"),
                        RoundText.count(added.takes(), "take"),
                        RoundText.count(added.examinations(), "examination"),
                        RoundText.count(added.notes(), "note"),
                        RoundText.count(imported.recordings(), "recording"));
                if (imported.changed() > 0) {
                    out.printf(
                            "different on both sides: %d; the newer counts, the other is remembered%n",
                            imported.changed());
                }
                imported.remarks().forEach(out::println);
                out.flush();
                return 0;
            }
        }
    }
}
