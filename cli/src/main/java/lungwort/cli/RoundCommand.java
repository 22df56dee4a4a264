package lungwort.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.function.Function;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Outcome;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vitals;
import lungwort.json.Json;
import lungwort.round.Compared;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
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
            RoundListCommands.SitesList.class,
            RoundListCommands.QuestionsList.class,
            RoundSheetCommand.class,
            RoundCommand.Start.class,
            RoundCommand.Answer.class,
            RoundAddCommand.class,
            RoundTakeOutCommand.class,
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
                Objects.requireNonNull(spec).commandLine(),
                "Say what to do with the round: sites, questions, start, answer, add, take-out, show or finish.");
    }

    /** Prints a view as text or JSON. */
    static void print(RoundService service, RoundView view, boolean json, PrintWriter out) {
        if (json) {
            out.println(Json.pretty(RoundJson.toJson(view)));
        } else {
            text(service, out).print(view);
        }
        out.flush();
    }

    private static RoundText text(RoundService service, PrintWriter out) {
        return new RoundText(out, service.diary().settings().temperatureUnit());
    }

    /** Prints a view with its takes beside one another. */
    static void printCompared(RoundService service, RoundView view, boolean json, PrintWriter out) {
        List<Compared> compared = service.comparing().round(view);
        if (json) {
            ObjectNode node = RoundJson.toJson(view);
            ArrayNode comparisons = node.putArray("comparisons");
            compared.forEach(c -> comparisons.add(RoundJson.toJson(c)));
            out.println(Json.pretty(node));
        } else {
            RoundText text = text(service, out);
            text.print(view);
            text.comparisons(compared);
        }
        out.flush();
    }

    /** Begins a round. */
    @Command(
            name = "start",
            mixinStandardHelpOptions = true,
            description =
                    "Begin a round: asks danger signs, vitals and symptoms on a terminal, or takes them as options.",
            footer = {"", "Example: lungwort round start --person Mia --no-other-danger-signs --spo2 95 --rate 28"})
    static final class Start implements Callable<Integer> {
        @ParentCommand
        private @Nullable RoundCommand parent;

        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final WhichRound which = new WhichRound();

        @Mixin
        private final AnswerOptions answers = new AnswerOptions();

        @Override
        public Integer call() {
            RoundCommand round = Objects.requireNonNull(parent);
            PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
            try (Diary diary = which.open()) {
                RoundService service = round.services().of(diary);
                Person person = which.person(diary);
                Round unstored = Round.begin(person.id(), OffsetDateTime.now(diary.clock()));
                Round begun = service.storing(
                        person,
                        answers.apply(unstored, person),
                        () -> diary.together(() -> {
                            Round answered = answers.apply(service.start(person), person);
                            diary.rounds().change(answered);
                            answers.sayWhatPausesWere(diary, answered.id());
                            return answered;
                        }));
                RoundCommand.print(service, round.ask(service, begun, answers, which.json(), out), which.json(), out);
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
            DangerAnswers given = questions.dangerSigns(view.dangerSignsOpen(), view.age());
            view = service.change(round.id(), now -> now.with(now.dangerSigns().and(given)));
        }
        // Asked once, when the round begins: who left a vital sign out then has not measured it.
        if (view.sites().isEmpty() && view.nextStep().outcome() != Outcome.EMERGENCY_NOW) {
            Vitals given = questions.vitals(view.round().vitals(), view.person().conditions());
            view = service.change(round.id(), now -> now.with(Questions.filled(now.vitals(), given)));
            if (view.nextStep().outcome() != Outcome.EMERGENCY_NOW) {
                Symptoms felt = questions.symptoms(view.round().symptoms(), view.age());
                view = service.change(round.id(), now -> now.with(Questions.filled(now.symptoms(), felt)));
            }
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
        private final WhichRound which = new WhichRound();

        @Mixin
        private final AnswerOptions answers = new AnswerOptions();

        @Option(
                names = "--breath-heard",
                paramLabel = "yes|no",
                description =
                        "Whether you clearly heard breath where hardly any stands out in the recordings. A chest in which hardly any air moves is a danger.")
        private AnswerOptions.@Nullable YesNo breathHeard;

        @Option(names = "--note", paramLabel = "WORDS", description = "A note on this round.")
        private @Nullable String note;

        @Override
        public Integer call() {
            RoundCommand round = Objects.requireNonNull(parent);
            PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
            try (Diary diary = which.open()) {
                RoundService service = round.services().of(diary);
                Round before = which.round(diary);
                Person person = diary.persons().get(before.personId());
                Round stored = service.storing(
                        person,
                        answers.apply(before, person),
                        () -> diary.together(() -> {
                            Round answered = answers.apply(diary.rounds().get(before.id()), person);
                            diary.rounds().change(answered);
                            answers.sayWhatPausesWere(diary, before.id());
                            sayWhetherBreathWasHeard(diary, before.id());
                            if (note != null) {
                                diary.notes().add(person.id(), before.id(), note);
                            }
                            return answered;
                        }));
                RoundView view = round.ask(service, stored, answers, which.json(), out);
                RoundCommand.print(service, view, which.json(), out);
                if (!before.open() && view.round().open() && !which.json()) {
                    out.printf(
                            "OPEN AGAIN: what was said at the end of this round was said without these answers. Finish it once more: lungwort round finish --person %s --round %s%n",
                            RoundText.quoted(person.nickname()), RoundText.shortId(before));
                    out.flush();
                }
                return 0;
            }
        }

        /** Of every take in which hardly any breath stands out. */
        private void sayWhetherBreathWasHeard(Diary diary, java.util.UUID roundId) {
            if (breathHeard == null) {
                return;
            }
            List<Take> faint = diary.takes().ofRound(roundId).stream()
                    .filter(take -> take.examination()
                            .filter(Examination::hardlyAnyBreath)
                            .isPresent())
                    .toList();
            if (faint.isEmpty()) {
                throw new BadInput(
                        "--breath-heard: breath stands out in every recording of this round; say it of a recording when you add it: lungwort round add FILE --breath-heard yes|no");
            }
            boolean heard = breathHeard == AnswerOptions.YesNo.yes;
            faint.forEach(take -> diary.takes().change(take.id(), take.reason(), heard, take.knownToClinician()));
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
        private final WhichRound which = new WhichRound();

        @Override
        public Integer call() {
            try (Diary diary = which.open()) {
                RoundService service = Objects.requireNonNull(parent).services().of(diary);
                Round round = which.round(diary);
                RoundCommand.printCompared(
                        service,
                        service.view(round.id()),
                        which.json(),
                        Objects.requireNonNull(spec).commandLine().getOut());
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
        private final WhichRound which = new WhichRound();

        @Override
        public Integer call() {
            try (Diary diary = which.open()) {
                RoundService service = Objects.requireNonNull(parent).services().of(diary);
                Round round = which.round(diary);
                CommandLine line = Objects.requireNonNull(spec).commandLine();
                service.examinePending(round.id())
                        .forEach(fault -> line.getErr().println("lungwort: " + fault));
                line.getErr().flush();
                RoundView view = service.finish(round.id());
                RoundCommand.printCompared(service, view, which.json(), line.getOut());
                // What is asked for at the end may be found out after it: the way to tell it stands here too.
                if (!which.json() && view.nextStep().outcome() != Outcome.EMERGENCY_NOW) {
                    text(service, line.getOut()).answerWith(view);
                    line.getOut().flush();
                }
                return 0;
            }
        }
    }
}
