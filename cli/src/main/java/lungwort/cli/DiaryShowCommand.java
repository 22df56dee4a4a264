package lungwort.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.function.Function;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Note;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Settings.TemperatureUnit;
import lungwort.diary.Trend;
import lungwort.examine.Examination;
import lungwort.guidance.Guidance;
import lungwort.json.Json;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import lungwort.round.RoundWords;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** Shows what the diary holds of a person. */
@Command(
        name = "show",
        mixinStandardHelpOptions = true,
        description = "Show the rounds and notes of a person, newest last.",
        footer = {"", "Example: lungwort diary show --person Mia --days 14"})
final class DiaryShowCommand implements Callable<Integer> {
    @ParentCommand
    private @Nullable DiaryCommand parent;

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final Span span = new Span();

    @Option(names = "--json", description = "Print JSON instead of text.")
    private boolean json;

    /** Whose days. */
    static final class Span {
        @Mixin
        private final DiaryPerson who = new DiaryPerson();

        @Option(
                names = "--days",
                paramLabel = "N",
                description = "How many days up to the last (default: ${DEFAULT-VALUE}).")
        private int days = 28;

        @Option(
                names = "--to",
                paramLabel = "YYYY-MM-DD",
                description = "The last day; without it, today, or the day of a round that a journey put later.")
        private @Nullable LocalDate to;

        Diary open() {
            return who.open();
        }

        Person person(Diary diary) {
            return who.person(diary);
        }

        LocalDate last(Diary diary, Person person) {
            return to == null ? diary.lastDay(person.id()) : to;
        }

        LocalDate first(Diary diary, Person person) {
            if (days < 1 || days > Trend.MAX_DAYS) {
                throw new BadInput("--days %d is outside 1 to %d.".formatted(days, Trend.MAX_DAYS));
            }
            return last(diary, person).minusDays(days - 1L);
        }
    }

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        try (Diary diary = span.open()) {
            Person person = span.person(diary);
            List<Round> rounds =
                    diary.rounds().ofPerson(person.id(), span.first(diary, person), span.last(diary, person));
            RoundService service = Objects.requireNonNull(parent).services().of(diary);
            if (json) {
                json(diary, person, rounds, service, out);
            } else {
                text(diary, person, rounds, service, out);
            }
            out.flush();
            return 0;
        }
    }

    private void json(Diary diary, Person person, List<Round> rounds, RoundService service, PrintWriter out) {
        ObjectNode node = Json.object();
        node.set("person", RoundJson.person(person, person.age(span.last(diary, person))));
        ArrayNode array = node.putArray("rounds");
        Function<Round, RoundView> brief = service.briefs(person);
        rounds.forEach(r -> array.add(RoundJson.toJson(brief.apply(r))));
        ArrayNode notes = node.putArray("notes");
        diary.notes().ofPerson(person.id()).forEach(n -> notes.add(RoundJson.toJson(n)));
        node.put("caution", Examination.CAUTION);
        out.println(Json.pretty(node));
    }

    private void text(Diary diary, Person person, List<Round> rounds, RoundService service, PrintWriter out) {
        out.printf(
                "%s, %s: %s from %s to %s%n",
                person.nickname(),
                person.age(span.last(diary, person)).words(),
                RoundText.count(rounds.size(), "round"),
                span.first(diary, person),
                span.last(diary, person));
        TemperatureUnit unit = diary.settings().temperatureUnit();
        Function<Round, RoundView> brief = service.briefs(person);
        rounds.forEach(r -> round(brief.apply(r), unit, out));
        for (Note note : diary.notes().ofPerson(person.id())) {
            LocalDate day = note.writtenAt().toLocalDate();
            if (note.roundId() == null
                    && !day.isBefore(span.first(diary, person))
                    && !day.isAfter(span.last(diary, person))) {
                out.printf("%n%s  note: %s%n", RoundText.time(note.writtenAt()), note.words());
            }
        }
        out.println();
        out.println(Examination.CAUTION);
    }

    private static void round(RoundView view, TemperatureUnit unit, PrintWriter out) {
        Round round = view.round();
        var step = round.nextStep() == null ? view.nextStep() : round.nextStep();
        out.printf(
                "%n%s  round %s%s  next step: %s%n",
                RoundText.time(round.startedAt()),
                RoundText.shortId(round),
                round.open() ? " (open)" : "",
                step.outcome().words());
        round.dangerSigns()
                .yes()
                .forEach(id -> out.printf(
                        "  DANGER SIGN: %s Yes.%n", Guidance.dangerSign(id).question(view.age())));
        if (view.breathingStopped()) {
            out.println("  DANGER SIGN: " + RoundWords.BREATHING_STOPPED);
        }
        if (!view.dangerSignsOpen().isEmpty()) {
            out.printf(
                    "  danger signs not answered: %d%n", view.dangerSignsOpen().size());
        }
        out.printf("  %s%n", VitalsText.line(view.vitals(), unit));
        view.sites()
                .forEach(s -> s.takes()
                        .forEach(t -> out.printf(
                                "  %-20s %-18s take %s  %s%s%n",
                                s.site().id(),
                                t.reason().id(),
                                t.id().toString().substring(0, 8),
                                t.examination().map(RoundWords::suggestion).orElse("not examined yet"),
                                t.examination()
                                        .flatMap(Examination::longestPause)
                                        .map(p -> "; NO BREATH FOUND FOR " + p.shortWords())
                                        .orElse(""))));
        view.notes().forEach(n -> out.printf("  note: %s%n", n.words()));
    }
}
