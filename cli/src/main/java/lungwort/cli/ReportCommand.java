package lungwort.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Objects;
import java.util.concurrent.Callable;
import lungwort.audio.RecordingReader;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.examine.Examination;
import lungwort.output.OutputFile;
import lungwort.report.ReportContent;
import lungwort.report.ReportFormat;
import lungwort.report.ReportOptions;
import lungwort.report.ReportService;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Writes a report of a round or of some days. */
@Command(
        name = "report",
        mixinStandardHelpOptions = true,
        description = {
            "Write a report for a clinician: one round, or a span of days.",
            "HTML holds pictures and sound and needs no network; PDF has one or two pages; JSON is a FHIR R4 bundle; CSV holds all measures."
        },
        footer = {
            "",
            "Without --round and --from the report is about the newest round. The same diary gives the same bytes.",
            "",
            "Example: lungwort report --person Mia --out mia.html",
            "         lungwort report --person Mia --from 2026-03-01 --to 2026-03-14 --without-name --out days.pdf"
        })
final class ReportCommand implements Callable<Integer> {
    private final RoundServices services;

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final DiaryRound which = new DiaryRound();

    @Option(names = "--from", paramLabel = "YYYY-MM-DD", description = "First day, for a report of days.")
    private @Nullable LocalDate from;

    @Option(names = "--to", paramLabel = "YYYY-MM-DD", description = "Last day; without it, the last that has a round.")
    private @Nullable LocalDate to;

    @Option(
            names = "--out",
            required = true,
            paramLabel = "FILE",
            description = "Where to write it: FILE.html, FILE.pdf, FILE.json (FHIR) or FILE.csv.")
    private Path file = Path.of("");

    @Option(
            names = "--format",
            paramLabel = "FORMAT",
            description = "html, pdf, json or csv, where the file's name does not tell.")
    private @Nullable String format;

    @ArgGroup(exclusive = false, heading = "%nWhat to leave out; the report says so:%n")
    private LeaveOut leaveOut = new LeaveOut();

    /** What to leave out. */
    static final class LeaveOut {
        @Option(names = "--without-name", description = "Leave out nickname, birth month and who set limits.")
        private boolean name;

        @Option(
                names = "--without-notes",
                description = "Leave out all free words: notes, what was seen, medicines, what is known.")
        private boolean notes;

        @Option(names = "--without-audio", description = "Leave out the recordings; measures and pictures stay.")
        private boolean audio;

        ReportOptions options() {
            return new ReportOptions(!name, !notes, !audio);
        }
    }

    ReportCommand(RoundServices services) {
        this.services = services;
    }

    @Override
    public Integer call() {
        CommandSpec command = Objects.requireNonNull(spec);
        if (which.named() && (from != null || to != null)) {
            throw new ParameterException(
                    command.commandLine(), "Name a round with --round, or days with --from and --to, not both.");
        }
        if (from == null && to != null) {
            throw new ParameterException(command.commandLine(), "--to needs --from: the first day of the report.");
        }
        ReportFormat as = format == null ? ReportFormat.ofFile(file.toString()) : ReportFormat.ofName(format);
        OutputFile.check(file, as.output());
        try (Diary diary = which.open()) {
            Person person = which.person(diary);
            ReportService reports = new ReportService(services.of(diary), RecordingReader::read);
            ReportContent content = content(reports, diary, person);
            OutputFile.writePrivately(file, as.output(), reports.write(content, as));
            told(content, command.commandLine().getOut());
            if (from == null && !which.named()) {
                passedOver(
                        content,
                        DiaryRound.newest(diary, person),
                        command.commandLine().getOut());
            }
        }
        return 0;
    }

    private ReportContent content(ReportService reports, Diary diary, Person person) {
        ReportOptions options = leaveOut.options();
        if (from != null) {
            LocalDate last = to == null ? lastDay(diary, person) : to;
            return reports.ofDays(person, from, last, options);
        }
        Round named = which.round(diary, person);
        Round round = named == null ? reports.newest(person).orElseGet(() -> DiaryRound.newest(diary, person)) : named;
        return reports.ofRound(round.id(), options);
    }

    /** On a journey the date can go back, and the newest round may not have the latest. One dated by a clock that went ahead does not count: it would be told in full as the newest. */
    private static LocalDate lastDay(Diary diary, Person person) {
        LocalDate newest = DiaryRound.newest(diary, person).day();
        Instant now = diary.clock().instant();
        return diary.rounds().ofPerson(person.id()).stream()
                .filter(round -> !round.startedAt().toInstant().isAfter(now))
                .map(Round::day)
                .reduce(newest, (a, b) -> a.isAfter(b) ? a : b);
    }

    private static void passedOver(ReportContent content, Round newest, PrintWriter out) {
        Round told = content.newest().view().round();
        if (!told.id().equals(newest.id())) {
            out.printf(
                    "The newest round, of %s, holds nothing yet: the report is about that of %s.%n",
                    RoundText.time(newest.startedAt()), RoundText.time(told.startedAt()));
            out.flush();
        }
    }

    private void told(ReportContent content, PrintWriter out) {
        out.printf("Wrote %s.%n", file);
        content.options().leftOut().forEach(w -> out.printf("  left out: %s%n", w));
        if (!content.options().warning().isEmpty()) {
            out.printf("  %s%n", content.options().warning());
        }
        out.println(
                "  It holds what is known about a person's health: give it only to who should see it. Other accounts of this computer cannot read it.");
        out.println(Examination.CAUTION);
        out.flush();
    }
}
