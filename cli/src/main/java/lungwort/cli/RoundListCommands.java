package lungwort.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lungwort.guidance.Age;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Guidance;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What a round needs to know before it begins. */
final class RoundListCommands {
    private RoundListCommands() {}

    /** The age that a list is for. */
    static final class AgeOption {
        @Option(
                names = "--age",
                required = true,
                paramLabel = "AGE",
                description = "For example 7 months, 3 years, 64y.")
        private String words = "";

        Age get() {
            return Age.parse(words);
        }
    }

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
            description = "List the danger-sign questions for an age, with the ids that --danger-sign takes.",
            footer = {"", "Example: lungwort round questions --age '3 years'"})
    static final class QuestionsList implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final AgeOption age = new AgeOption();

        @Override
        public Integer call() {
            PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
            Conditions all = new Conditions(Set.of(Condition.values()));
            Guidance.dangerSigns(age.get(), all)
                    .forEach(s -> out.printf("%-26s %s%s%n", s.id(), s.question(age.get()), of(s)));
            out.println();
            out.println("A yes to any of them outranks every sound and needs no recording.");
            out.flush();
            return 0;
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
