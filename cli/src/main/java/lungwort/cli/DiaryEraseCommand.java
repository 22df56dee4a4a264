package lungwort.cli;

import java.io.PrintWriter;
import java.util.Objects;
import java.util.concurrent.Callable;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Eraser;
import lungwort.diary.Person;
import lungwort.diary.Round;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** Erases for good, after asking twice. */
@Command(
        name = "erase",
        mixinStandardHelpOptions = true,
        description = {
            "Erase a person with all rounds, recordings and notes, or one round. It cannot be undone.",
            "On a terminal it asks twice; elsewhere the nickname must be given once more with --yes-erase."
        },
        footer = {"", "Example: lungwort diary erase --person Mia --yes-erase Mia"})
final class DiaryEraseCommand implements Callable<Integer> {
    @ParentCommand
    private @Nullable DiaryCommand parent;

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final DiaryRound which = new DiaryRound();

    @Option(names = "--yes-erase", paramLabel = "NICKNAME", description = "The same nickname again: yes, erase.")
    private @Nullable String confirmed;

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        try (Diary diary = which.open()) {
            Person person = which.person(diary);
            Round round = which.round(diary, person);
            confirm(diary, person, round, out);
            Eraser.Erased erased = round == null
                    ? diary.eraser().person(person.id())
                    : diary.eraser().round(round.id());
            out.printf(
                    "Erased: %s, %s, %s.%n",
                    RoundText.count(erased.rounds(), "round"),
                    RoundText.count(erased.takes(), "take"),
                    RoundText.count(erased.recordings(), "recording"));
            out.println(
                    "Copies made elsewhere (exports, backups, reports) are not erased, and a disk may keep freed blocks for a while.");
            out.flush();
            return 0;
        }
    }

    private void confirm(Diary diary, Person person, @Nullable Round round, PrintWriter out) {
        String what = round == null
                ? "%s with %s"
                        .formatted(
                                person.nickname(),
                                RoundText.count(
                                        diary.rounds().ofPerson(person.id()).size(), "round"))
                : "the round of %s of %s".formatted(person.nickname(), RoundText.time(round.startedAt()));
        if (confirmed != null) {
            if (!person.isTyped(confirmed)) {
                throw new BadInput("--yes-erase says \"%s\", but the person is called \"%s\"; nothing was erased."
                        .formatted(confirmed, person.nickname()));
            }
            return;
        }
        Questions questions = Objects.requireNonNull(parent).terminal(out);
        if (questions == null) {
            throw new BadInput("To erase %s for good, say so: --yes-erase %s. Nothing was erased."
                    .formatted(what, RoundText.quoted(person.nickname())));
        }
        Boolean first = questions.yesOrNo("Erase %s, all recordings and notes, for good?".formatted(what));
        boolean sure = first != null
                && first
                && person.isTyped(questions.ask("It cannot be undone. Type the nickname to erase: "));
        if (!sure) {
            throw new BadInput("Nothing was erased.");
        }
    }
}
