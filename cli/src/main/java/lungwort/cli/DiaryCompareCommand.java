package lungwort.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import lungwort.compare.Comparison;
import lungwort.compare.ComparisonText;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Take;
import lungwort.json.Json;
import lungwort.round.Compared;
import lungwort.round.Comparing;
import lungwort.round.RoundJson;
import lungwort.round.RoundWords;
import lungwort.round.UsualAtSite;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** Puts two takes of the diary beside one another, or one beside this person's earlier ones. */
@Command(
        name = "compare",
        mixinStandardHelpOptions = true,
        description = {
            "Compare two takes of a person, or one take with the earlier ones at its site.",
            "Takes are named by the first characters of their ids, as `lungwort diary show` prints them."
        },
        footer = {"", "Example: lungwort diary compare --person Mia 3f2a 91bc"})
final class DiaryCompareCommand implements Callable<Integer> {
    @ParentCommand
    private @Nullable DiaryCommand parent;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(paramLabel = "TAKE", arity = "1..2", description = "One or two takes.")
    private List<String> ids = List.of();

    @Mixin
    private final DiaryPerson who = new DiaryPerson();

    @Option(names = "--json", description = "Print JSON instead of text.")
    private boolean json;

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        try (Diary diary = who.open()) {
            Person person = who.person(diary);
            Comparing comparing =
                    Objects.requireNonNull(parent).services().of(diary).comparing();
            Take first = diary.takes().byPrefix(person.id(), ids.get(0));
            if (ids.size() == 1) {
                usual(comparing.usual(first.id()), out);
            } else {
                two(
                        comparing.takes(
                                first.id(),
                                diary.takes().byPrefix(person.id(), ids.get(1)).id()),
                        out);
            }
            out.flush();
            return 0;
        }
    }

    private void two(Compared compared, PrintWriter out) {
        if (json) {
            out.println(Json.pretty(RoundJson.toJson(compared)));
        } else {
            ComparisonText.print(compared.comparison(), compared.clearings(), out);
            out.println(Comparison.CAUTION);
        }
    }

    private void usual(UsualAtSite usual, PrintWriter out) {
        if (json) {
            out.println(Json.pretty(RoundJson.toJson(usual)));
        } else {
            out.println("- " + RoundWords.earlier(usual));
            ComparisonText.printUsual(usual.measures(), usual.earlier().size(), out);
            out.println(Comparison.CAUTION);
        }
    }
}
