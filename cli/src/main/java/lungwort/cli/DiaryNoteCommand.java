package lungwort.cli;

import java.util.Objects;
import java.util.concurrent.Callable;
import lungwort.diary.Diary;
import lungwort.diary.Note;
import lungwort.diary.Person;
import lungwort.diary.Round;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes a note. */
@Command(
        name = "note",
        mixinStandardHelpOptions = true,
        description = "Write a note about a person, or about one round.",
        footer = {"", "Example: lungwort diary note 'slept badly, coughed at 3' --person Mia"})
final class DiaryNoteCommand implements Callable<Integer> {
    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(paramLabel = "WORDS", description = "The note.")
    private String words = "";

    @Mixin
    private final DiaryRound which = new DiaryRound();

    @Override
    public Integer call() {
        try (Diary diary = which.open()) {
            Person person = which.person(diary);
            Round about = which.round(diary, person);
            Note note = diary.notes().add(person.id(), about == null ? null : about.id(), words);
            var out = Objects.requireNonNull(spec).commandLine().getOut();
            out.printf("%s  note: %s%n", RoundText.time(note.writtenAt()), note.words());
            out.flush();
            return 0;
        }
    }
}
