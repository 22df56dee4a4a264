package lungwort.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Eraser;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.round.RoundService;
import lungwort.round.TakingOut;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** Takes a take out of a round again, after asking once. */
@Command(
        name = "take-out",
        mixinStandardHelpOptions = true,
        description = {
            "Take a recording out of a round that is not finished: it was put at a wrong place, or is the wrong file.",
            "Its copy in the diary is deleted for good (the file that it came from stays), and what to do next is worked out anew. Copies made before, as by diary export, still hold it.",
            "Of several takes at one place only the last can go: it was judged beside those before it. Those of a finished round stay; write a note instead.",
            "On a terminal it asks once; elsewhere say --yes-take-out."
        },
        footer = {"", "Example: lungwort round take-out --person Mia --site back-lower-left --take after-cough"})
final class RoundTakeOutCommand implements Callable<Integer> {
    @ParentCommand
    private @Nullable RoundCommand parent;

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final WhichRound which = new WhichRound();

    @Option(
            names = "--site",
            required = true,
            paramLabel = "SITE",
            description = "Where it stands; `lungwort round show` lists the takes.")
    private String site = "";

    @Option(
            names = "--take",
            paramLabel = "WHY",
            description = "first, moved, after-deep-breaths or after-cough (without it: the last one there).")
    private @Nullable String reason;

    @Option(names = "--yes-take-out", description = "Yes, take it out.")
    private boolean confirmed;

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        RoundCommand command = Objects.requireNonNull(parent);
        try (Diary diary = which.open()) {
            RoundService service = command.services().of(diary);
            Round round = which.round(diary);
            Take take = named(diary.takes().ofRound(round.id()), Sites.of(site));
            service.takingOut().refuse(take);
            confirm(command, take, out);
            Eraser.Erased erased = service.takingOut().takeOut(take.id());
            if (!which.json()) {
                out.printf(
                        "TAKEN OUT: %s. %s%n%n",
                        words(take),
                        erased.recordings() > 0
                                ? "Its recording is deleted from the diary."
                                : "Its recording stays in the diary, since another take holds the same.");
            }
            RoundCommand.print(service, service.view(round.id()), which.json(), out);
            return 0;
        }
    }

    private Take named(List<Take> takes, Site at) {
        TakeReason why = reason == null ? null : TakeReason.ofId(reason);
        return takes.stream()
                .filter(t -> t.site().equals(at) && (why == null || t.reason() == why))
                .reduce((earlier, later) -> later)
                .orElseThrow(() -> new BadInput("This round holds no take at %s%s; it holds %s."
                        .formatted(
                                at.id(),
                                why == null ? "" : " that is called " + why.id(),
                                takes.isEmpty()
                                        ? "none"
                                        : takes.stream()
                                                .map(t -> "%s %s"
                                                        .formatted(
                                                                t.site().id(),
                                                                t.reason().id()))
                                                .collect(Collectors.joining(", ")))));
    }

    private void confirm(RoundCommand command, Take take, PrintWriter out) {
        if (confirmed) {
            return;
        }
        Questions questions = command.terminal(out);
        if (questions == null) {
            throw new BadInput("To take out %s, say so: --yes-take-out. %s Nothing was taken out."
                    .formatted(words(take), TakingOut.whatGoes(take)));
        }
        out.println(TakingOut.whatGoes(take));
        if (!Boolean.TRUE.equals(questions.yesOrNo("Take out %s?".formatted(words(take))))) {
            throw new BadInput("Nothing was taken out.");
        }
    }

    private static String words(Take take) {
        return "%s, %s (%s)".formatted(take.site().words(), take.reason().id(), take.fileName());
    }

    /** The command that takes a take out, at the end of a sentence that refuses another because of it. */
    static String how(RoundService service, Take take) {
        Round round = service.diary().rounds().get(take.roundId());
        Person person = service.diary().persons().get(round.personId());
        return ": lungwort round take-out --person %s --round %s --site %s --take %s"
                .formatted(
                        RoundText.quoted(person.nickname()),
                        RoundText.shortId(round),
                        take.site().id(),
                        take.reason().id());
    }
}
