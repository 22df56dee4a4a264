package lungwort.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lungwort.diary.Diary;
import lungwort.examine.Examination;
import lungwort.guidance.Age;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.output.OutputFile;
import lungwort.report.BedsideSheet;
import lungwort.report.SheetContent;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Prints a round on paper, to fill in where no computer stands. */
@Command(
        name = "sheet",
        mixinStandardHelpOptions = true,
        description = {
            "Write a sheet of paper (PDF, two pages) to fill in at the bedside: danger signs, numbers with their limits, questions, and where to listen in which order.",
            "It judges nothing: enter afterwards what was written on it, and add the recordings."
        },
        footer = {
            "",
            "Example: lungwort round sheet --person Mia --out sheet.pdf",
            "         lungwort round sheet --age '64 years' --condition copd --out sheet.pdf"
        })
final class RoundSheetCommand implements Callable<Integer> {
    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final DiaryOption diary = new DiaryOption();

    @Option(
            names = "--person",
            paramLabel = "NICKNAME",
            description = "For whom: by age today, with what this person has and the limits that a clinician set.")
    private @Nullable String nickname;

    @Option(
            names = "--age",
            paramLabel = "AGE",
            description = "For anybody of an age, for example 7 months, 3 years, 64y.")
    private @Nullable String age;

    @Option(
            names = "--condition",
            paramLabel = "ID",
            description = "With --age: asthma, copd, heart-failure, hypercapnia-risk, pregnancy (repeat for several).")
    private List<String> conditions = new ArrayList<>();

    @Option(names = "--out", required = true, paramLabel = "FILE.pdf", description = "Where to write it.")
    private Path file = Path.of("");

    @Override
    public Integer call() {
        CommandLine line = Objects.requireNonNull(spec).commandLine();
        if ((age == null) == (nickname == null)) {
            throw new ParameterException(line, "Say for whom: --age or --person, one of them.");
        }
        if (nickname != null && !conditions.isEmpty()) {
            throw new ParameterException(
                    line,
                    "--condition goes with --age; what a person has is kept in the diary: lungwort diary person set.");
        }
        OutputFile.check(file, BedsideSheet.OUTPUT);
        // It says what somebody has, and by what limits.
        OutputFile.writePrivately(file, BedsideSheet.OUTPUT, BedsideSheet.write(content()));
        PrintWriter out = line.getOut();
        out.printf("Wrote %s: two pages, to print on both sides of one sheet.%n", file);
        out.println(
                "  Enter afterwards what was written on it: paper judges nothing, and compares with no earlier day.");
        out.println(Examination.CAUTION);
        out.flush();
        return 0;
    }

    private SheetContent content() {
        if (nickname == null) {
            Set<Condition> known = conditions.stream().map(Condition::ofId).collect(Collectors.toSet());
            return new SheetContent(
                    "",
                    Age.parse(Objects.requireNonNull(age)),
                    new Conditions(known),
                    ClinicianLimits.NONE,
                    null,
                    LocalDate.now());
        }
        try (Diary opened = diary.open()) {
            return SheetContent.of(
                    opened.persons().need(nickname),
                    opened.settings().emergencyNumber().orElse(null),
                    LocalDate.now(opened.clock()));
        }
    }
}
