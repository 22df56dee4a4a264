package lungwort.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.Function;
import lungwort.BadInput;
import lungwort.LungwortVersion;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;

/** The command line: exit 0 done, 1 bad input, 2 bad usage. */
@Command(
        name = "lungwort",
        mixinStandardHelpOptions = true,
        version = {
            "lungwort " + LungwortVersion.CURRENT,
            "GPL-3.0-or-later. Libraries inside and their licences: META-INF/THIRD-PARTY.txt in lungwort.jar"
        },
        description = "Listen to a chest: measured lung sounds, an honest suggestion, and what to do next.",
        footer = {"", "Example: lungwort examine --demo"})
public final class Main {
    /** Exit code for input that cannot be used. */
    public static final int EXIT_BAD_INPUT = 1;

    /** Exit code for a command line that cannot be understood. */
    public static final int EXIT_BAD_USAGE = 2;

    private Main() {}

    public static void main(String[] args) {
        // Figures are read by people and by machines in every country: one decimal point everywhere.
        Locale.setDefault(Locale.ROOT);
        StandardOutput out = StandardOutput.install();
        int code = commandLine().execute(args);
        System.exit(out.written(code, System.err));
    }

    /** The whole command line, ready to execute; tests set its writers. */
    public static CommandLine commandLine() {
        return commandLine(ShippedExaminer::rounds, Questions::onTerminal, ShippedExaminer::with);
    }

    /** The same with another examiner and typed answers, as tests want them. */
    static CommandLine commandLine(RoundServices services, Function<PrintWriter, @Nullable Questions> terminal) {
        return commandLine(services, terminal, ShippedExaminer::with);
    }

    /** The same with another examiner for comparing. */
    static CommandLine commandLine(Examining examining) {
        return commandLine(ShippedExaminer::rounds, Questions::onTerminal, examining);
    }

    private static CommandLine commandLine(
            RoundServices services, Function<PrintWriter, @Nullable Questions> terminal, Examining examining) {
        return new CommandLine(new Main())
                .addSubcommand(new PageCommand(services, ShippedExaminer::warmUp))
                .addSubcommand(new RoundCommand(services, terminal))
                .addSubcommand(new DiaryCommand(services, terminal))
                .addSubcommand(new ReportCommand(services))
                .addSubcommand(new ExamineCommand())
                .addSubcommand(new CompareCommand(examining))
                .addSubcommand(new PracticeCommand())
                .addSubcommand(new FeaturesCommand())
                .addSubcommand(new DatasetCommand())
                .addSubcommand(new TrainCommand())
                .addSubcommand(new ScoreCommand())
                .addSubcommand(new HelpCommand())
                .setExecutionStrategy(Memory::guarded)
                .setParameterExceptionHandler(Usage::oneSentence)
                .setExecutionExceptionHandler(Main::oneSentence);
    }

    private static int oneSentence(Exception e, CommandLine commandLine, CommandLine.ParseResult result) {
        PrintWriter err = commandLine.getErr();
        if (e instanceof BadInput) {
            err.println("lungwort: " + e.getMessage());
        } else {
            err.println("lungwort: something went wrong inside Lungwort (" + e
                    + "); nothing stored was changed. Set LUNGWORT_TRACE=1 to see where.");
            if (System.getenv("LUNGWORT_TRACE") != null) {
                e.printStackTrace(err);
            }
        }
        err.flush();
        return EXIT_BAD_INPUT;
    }
}
