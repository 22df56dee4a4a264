package lungwort.cli;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The diary: persons, what was written, trends, copies, erasing. */
@Command(
        name = "diary",
        mixinStandardHelpOptions = true,
        description =
                "Look at the diary, follow a person from day to day, copy it, or erase from it. It is kept on this computer only.",
        subcommands = {
            DiaryPersonCommand.class,
            DiaryShowCommand.class,
            DiaryTrendCommand.class,
            DiaryCompareCommand.class,
            DiaryNoteCommand.class,
            DiarySettingsCommand.class,
            DiaryCopyCommands.Export.class,
            DiaryCopyCommands.Import.class,
            DiaryEraseCommand.class,
            DiaryReExamineCommand.class
        },
        footer = {"", "Example: lungwort diary trend --person Mia --picture trend.png"})
public final class DiaryCommand implements Callable<Integer> {
    private final RoundServices services;
    private final java.util.function.Function<java.io.PrintWriter, @Nullable Questions> terminal;

    @Spec
    private @Nullable CommandSpec spec;

    DiaryCommand(
            RoundServices services, java.util.function.Function<java.io.PrintWriter, @Nullable Questions> terminal) {
        this.services = services;
        this.terminal = terminal;
    }

    RoundServices services() {
        return services;
    }

    @Nullable
    Questions terminal(java.io.PrintWriter out) {
        return terminal.apply(out);
    }

    @Override
    public Integer call() {
        throw new ParameterException(
                java.util.Objects.requireNonNull(spec).commandLine(),
                "Say what to do with the diary: person, show, trend, compare, note, settings, export, import, erase or re-examine.");
    }
}
