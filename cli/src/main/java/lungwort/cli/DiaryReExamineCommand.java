package lungwort.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.round.RoundService;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** Examines stored recordings again, after an upgrade. */
@Command(
        name = "re-examine",
        mixinStandardHelpOptions = true,
        description =
                "Examine the stored recordings again with this version and its model; the old examinations are kept.",
        footer = {"", "Example: lungwort diary re-examine --person Mia"})
final class DiaryReExamineCommand implements Callable<Integer> {
    @ParentCommand
    private @Nullable DiaryCommand parent;

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final DiaryOption diaryOption = new DiaryOption();

    @Option(names = "--person", paramLabel = "NICKNAME", description = "Only this person.")
    private @Nullable String nickname;

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        PrintWriter err = Objects.requireNonNull(spec).commandLine().getErr();
        List<String> errors = new ArrayList<>();
        try (Diary diary = diaryOption.open()) {
            RoundService service = Objects.requireNonNull(parent).services().of(diary);
            List<Person> persons = nickname == null
                    ? diary.persons().all()
                    : List.of(diary.persons().need(nickname));
            int examined = 0;
            int changed = 0;
            for (Person person : persons) {
                for (Take take : diary.takes().ofPerson(person.id())) {
                    try {
                        changed += again(service, person, take, out) ? 1 : 0;
                        examined++;
                    } catch (BadInput e) {
                        errors.add("%s, %s: %s".formatted(person.nickname(), take.fileName(), e.getMessage()));
                    }
                }
            }
            out.printf("%s examined again, %d with another suggestion%n", RoundText.count(examined, "take"), changed);
            out.println(Examination.CAUTION);
            out.flush();
            errors.forEach(e -> err.println("lungwort: " + e));
            err.flush();
            return errors.isEmpty() ? 0 : Main.EXIT_BAD_INPUT;
        }
    }

    private static boolean again(RoundService service, Person person, Take take, PrintWriter out) {
        String before = take.examination().map(e -> e.suggestion().id()).orElse("none yet");
        Examination now = service.examineAgain(take).examination().orElseThrow();
        if (now.suggestion().id().equals(before)) {
            return false;
        }
        out.printf(
                "%s, %s, %s: was %s, is now %s%n",
                person.nickname(),
                RoundText.time(take.recordedAt()),
                take.site().id(),
                before,
                now.suggestion().id());
        return true;
    }
}
