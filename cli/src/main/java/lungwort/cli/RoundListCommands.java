package lungwort.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.guidance.Age;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Guidance;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What a round needs to know before it begins. */
final class RoundListCommands {
    private RoundListCommands() {}

    /** Where to listen. */
    @Command(
            name = "sites",
            mixinStandardHelpOptions = true,
            description = "List the sites of a round in order, with where exactly to put the stethoscope.",
            footer = {
                "",
                "Example: lungwort round sites --age '3 years'",
                "Without --age it lists every site that there is, and not how to begin."
            })
    static final class SitesList implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Option(names = "--age", paramLabel = "AGE", description = "For example 7 months, 3 years, 64y.")
        private @Nullable String age;

        @Override
        public Integer call() {
            PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
            List<Site> sites = Sites.catalogue();
            if (age != null) {
                Age of = Age.parse(age);
                Sites.beforeTheRound(of).forEach(s -> out.println("- " + s));
                out.println();
                sites = Sites.round(of);
            }
            for (Site site : sites) {
                out.printf("%-20s %s%n", site.id(), Sites.placement(site));
            }
            out.flush();
            return 0;
        }
    }

    /** Which danger signs are asked. */
    @Command(
            name = "questions",
            mixinStandardHelpOptions = true,
            description =
                    "List the danger-sign questions for an age, or for a person today, with the ids that --danger-sign takes.",
            footer = {
                "",
                "Example: lungwort round questions --age '3 years'",
                "         lungwort round questions --person Mia"
            })
    static final class QuestionsList implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final DiaryOption diary = new DiaryOption();

        @Option(names = "--age", paramLabel = "AGE", description = "For example 7 months, 3 years, 64y.")
        private @Nullable String age;

        @Option(
                names = "--person",
                paramLabel = "NICKNAME",
                description = "Whose: by age today, and with those that are asked with what the person has.")
        private @Nullable String nickname;

        @Override
        public Integer call() {
            CommandLine line = Objects.requireNonNull(spec).commandLine();
            if ((age == null) == (nickname == null)) {
                throw new ParameterException(line, "Say for whom: --age or --person, one of them.");
            }
            PrintWriter out = line.getOut();
            if (nickname != null) {
                try (Diary opened = diary.open()) {
                    Person person = opened.persons().need(nickname);
                    print(person.age(LocalDate.now(opened.clock())), person.conditions(), out);
                }
            } else {
                print(Age.parse(Objects.requireNonNull(age)), new Conditions(Set.of(Condition.values())), out);
            }
            return 0;
        }

        private static void print(Age of, Conditions known, PrintWriter out) {
            Guidance.dangerSigns(of, known).forEach(s -> out.printf("%-26s %s%s%n", s.id(), s.question(of), of(s)));
            out.println();
            out.println("A yes to any of them outranks every sound and needs no recording.");
            out.flush();
        }

        /** Of whom it is asked, where that is not everybody. */
        private static String of(DangerSign sign) {
            return sign.conditions().isEmpty()
                    ? ""
                    : sign.conditions().stream()
                            .map(Condition::words)
                            .sorted()
                            .collect(Collectors.joining(" or ", " (asked with ", ")"));
        }
    }
}
