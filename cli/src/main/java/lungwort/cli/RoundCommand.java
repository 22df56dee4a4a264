package lungwort.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import java.util.function.Function;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.guidance.Age;
import lungwort.guidance.Guidance;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.json.Json;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** One pass over a person's chest: danger signs, vitals, takes, what they say together, the next step. */
@Command(
        name = "round",
        mixinStandardHelpOptions = true,
        description =
                "Make a round: danger signs first, then vitals, then recordings site by site, then what to do next.",
        subcommands = {
            RoundCommand.SitesList.class,
            RoundCommand.QuestionsList.class,
            RoundCommand.Start.class,
            RoundCommand.Answer.class,
            RoundAddCommand.class,
            RoundCommand.Show.class,
            RoundCommand.Finish.class
        },
        footer = {
            "",
            "Example:",
            "  lungwort diary person add Mia --born 2021-04",
            "  lungwort round start --person Mia --no-other-danger-signs --spo2 95 --rate 28",
            "  lungwort round add base.wav --person Mia --site back-lower-left",
            "  lungwort round add cough.wav --person Mia --site back-lower-left --take after-cough",
            "  lungwort round finish --person Mia",
            "It suggests, it does not diagnose. Danger signs outrank every sound and need no recording."
        })
public final class RoundCommand implements Callable<Integer> {
    private final RoundServices services;
    private final Function<PrintWriter, @Nullable Questions> terminal;

    @Spec
    private @Nullable CommandSpec spec;

    RoundCommand(RoundServices services, Function<PrintWriter, @Nullable Questions> terminal) {
        this.services = services;
        this.terminal = terminal;
    }

    RoundServices services() {
        return services;
    }

    @Nullable
    Questions terminal(PrintWriter out) {
        return terminal.apply(out);
    }

    @Override
    public Integer call() {
        throw new ParameterException(
                java.util.Objects.requireNonNull(spec).commandLine(),
                "Say what to do with the round: sites, questions, start, answer, add, show or finish.");
    }

    /** Prints a view as text or JSON. */
    static void print(RoundView view, boolean json, PrintWriter out) {
        if (json) {
            out.println(Json.pretty(RoundJson.toJson(view)));
        } else {
            new RoundText(out).print(view);
        }
        out.flush();
    }

    /** Which round of whom, and how to print it. */
    static final class Which {
        @Mixin
        private final DiaryOption diary = new DiaryOption();

        @Option(names = "--person", paramLabel = "NICKNAME", description = "Whose round.")
        private @Nullable String nickname;

        @Option(
                names = "--round",
                paramLabel = "ID",
                description = "Which round, by the first characters of its id; without it, the newest of the person.")
        private @Nullable String id;

        @Option(names = "--json", description = "Print JSON instead of text.")
        private boolean json;

        Diary open() {
            return diary.open();
        }

        boolean json() {
            return json;
        }

        Person person(Diary diary) {
            if (nickname != null) {
                return diary.persons().need(nickname);
            }
            if (id != null) {
                return diary.persons().get(diary.rounds().byPrefix(id).personId());
            }
            return onlyPerson(diary);
        }

        private static Person onlyPerson(Diary diary) {
            var all = diary.persons().all();
            if (all.size() == 1) {
                return all.get(0);
            }
            throw new lungwort.BadInput(
                    all.isEmpty()
                            ? "This diary knows nobody yet; add the person first: lungwort diary person add NICKNAME --born YYYY-MM"
                            : "Whose round? Name one with --person: %s."
                                    .formatted(String.join(
                                            ", ",
                                            all.stream().map(Person::nickname).toList())));
        }

        @Nullable
        String id() {
            return id;
        }

        /** The round named, else the newest of the person. */
        Round round(Diary diary) {
            if (id != null) {
                Round round = diary.rounds().byPrefix(id);
                if (nickname != null
                        && !round.personId()
                                .equals(diary.persons().need(nickname).id())) {
                    throw new lungwort.BadInput("Round %s is not one of %s.".formatted(id, nickname));
                }
                return round;
            }
            Person person = person(diary);
            return diary.rounds()
                    .newest(person.id())
                    .orElseThrow(() -> new lungwort.BadInput(
                            "There is no round of %s yet; begin one: lungwort round start --person %s"
                                    .formatted(person.nickname(), RoundText.quoted(person.nickname()))));
        }
    }

    /** Where to listen. */
    @Command(
            name = "sites",
            mixinStandardHelpOptions = true,
            description = "List the sites of a round in order, with where exactly to put the stethoscope.",
            footer = {"", "Example: lungwort round sites --age '3 years'"})
    static final class SitesList implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Option(
                names = "--age",
                required = true,
                paramLabel = "AGE",
                description = "For example 7 months, 3 years, 64y.")
        private String age = "";

        @Override
        public Integer call() {
            Age of = Age.parse(age);
            PrintWriter out =
                    java.util.Objects.requireNonNull(spec).commandLine().getOut();
            Sites.beforeTheRound(of).forEach(s -> out.println("- " + s));
            out.println();
            for (Site site : Sites.round(of)) {
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

        @Option(
                names = "--age",
                required = true,
                paramLabel = "AGE",
                description = "For example 7 months, 3 years, 64y.")
        private String age = "";

        @Override
        public Integer call() {
            PrintWriter out =
                    java.util.Objects.requireNonNull(spec).commandLine().getOut();
            Guidance.dangerSigns(Age.parse(age)).forEach(s -> out.printf("%-26s %s%n", s.id(), s.question()));
            out.println();
            out.println("A yes to any of them outranks every sound and needs no recording.");
            out.flush();
            return 0;
        }
    }

    /** Begins a round. */
    @Command(
            name = "start",
            mixinStandardHelpOptions = true,
            description = "Begin a round: asks danger signs and vitals on a terminal, or takes them as options.",
            footer = {"", "Example: lungwort round start --person Mia --no-other-danger-signs --spo2 95 --rate 28"})
    static final class Start implements Callable<Integer> {
        @ParentCommand
        private @Nullable RoundCommand parent;

        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final Which which = new Which();

        @Mixin
        private final AnswerOptions answers = new AnswerOptions();

        @Override
        public Integer call() {
            RoundCommand round = java.util.Objects.requireNonNull(parent);
            PrintWriter out =
                    java.util.Objects.requireNonNull(spec).commandLine().getOut();
            try (Diary diary = which.open()) {
                RoundService service = round.services().of(diary);
                Person person = which.person(diary);
                Round begun = diary.together(() -> {
                    Round started = service.start(person);
                    Round answered = answers.apply(started, person.age(started.day()));
                    diary.rounds().change(answered);
                    return answered;
                });
                RoundCommand.print(round.ask(service, begun, answers, which.json(), out), which.json(), out);
                return 0;
            }
        }
    }

    /** On a terminal, asks what the options left open; what is answered is stored at once. */
    RoundView ask(RoundService service, Round round, AnswerOptions answers, boolean json, PrintWriter out) {
        RoundView view = service.view(round.id());
        Questions questions = json ? null : terminal(out);
        if (questions == null) {
            return view;
        }
        if (!answers.answersDangerSigns() && !view.dangerSignsOpen().isEmpty()) {
            view = service.change(
                    view.round().with(questions.dangerSigns(view.round().dangerSigns(), view.dangerSignsOpen())));
        }
        // Asked once, when the round begins: who left a vital sign out then has not measured it.
        if (view.sites().isEmpty() && view.round().dangerSigns().yes().isEmpty()) {
            view = service.change(questions.vitals(view.round()));
        }
        return view;
    }

    /** Changes answers and vitals of a round. */
    @Command(
            name = "answer",
            mixinStandardHelpOptions = true,
            description = "Answer danger signs, vitals and symptoms of a round; what it held before is kept.",
            footer = {"", "Example: lungwort round answer --person Mia --danger-sign blue"})
    static final class Answer implements Callable<Integer> {
        @ParentCommand
        private @Nullable RoundCommand parent;

        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final Which which = new Which();

        @Mixin
        private final AnswerOptions answers = new AnswerOptions();

        @Option(names = "--note", paramLabel = "WORDS", description = "A note on this round.")
        private @Nullable String note;

        @Override
        public Integer call() {
            RoundCommand round = java.util.Objects.requireNonNull(parent);
            PrintWriter out =
                    java.util.Objects.requireNonNull(spec).commandLine().getOut();
            try (Diary diary = which.open()) {
                RoundService service = round.services().of(diary);
                Round before = which.round(diary);
                Person person = diary.persons().get(before.personId());
                diary.together(() -> {
                    diary.rounds().change(answers.apply(before, person.age(before.day())));
                    return note == null ? null : diary.notes().add(person.id(), before.id(), note);
                });
                RoundCommand.print(
                        round.ask(service, diary.rounds().get(before.id()), answers, which.json(), out),
                        which.json(),
                        out);
                return 0;
            }
        }
    }

    /** Shows a round. */
    @Command(
            name = "show",
            mixinStandardHelpOptions = true,
            description =
                    "Show a round: danger signs, vitals, what each take suggests, left and right, before and after, the next step.",
            footer = {"", "Example: lungwort round show --person Mia"})
    static final class Show implements Callable<Integer> {
        @ParentCommand
        private @Nullable RoundCommand parent;

        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final Which which = new Which();

        @Override
        public Integer call() {
            try (Diary diary = which.open()) {
                RoundService service =
                        java.util.Objects.requireNonNull(parent).services().of(diary);
                Round round = which.round(diary);
                RoundCommand.print(
                        service.view(round.id()),
                        which.json(),
                        java.util.Objects.requireNonNull(spec).commandLine().getOut());
                return 0;
            }
        }
    }

    /** Finishes a round. */
    @Command(
            name = "finish",
            mixinStandardHelpOptions = true,
            description = "Finish a round: what is said now is kept in the diary.",
            footer = {"", "Example: lungwort round finish --person Mia"})
    static final class Finish implements Callable<Integer> {
        @ParentCommand
        private @Nullable RoundCommand parent;

        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final Which which = new Which();

        @Override
        public Integer call() {
            try (Diary diary = which.open()) {
                RoundService service =
                        java.util.Objects.requireNonNull(parent).services().of(diary);
                Round round = which.round(diary);
                service.examinePending(round.id());
                RoundCommand.print(
                        service.finish(round.id()),
                        which.json(),
                        java.util.Objects.requireNonNull(spec).commandLine().getOut());
                return 0;
            }
        }
    }
}
