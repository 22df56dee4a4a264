package lungwort.cli;

import java.io.PrintWriter;
import java.util.regex.Pattern;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** A command line that cannot be understood is one sentence too: a screen of options would push it out of sight. */
final class Usage {
    private static final Pattern DATE =
            Pattern.compile("(?s)cannot convert '([^']*)' to class java\\.time\\.LocalDate.*");

    private static final String NO_COMMAND = "Missing required subcommand";

    private static final Pattern UNMATCHED = Pattern.compile("Unmatched arguments? (?:at|from) index \\d+: (.*)");

    private Usage() {}

    static int oneSentence(ParameterException e, String[] arguments) {
        CommandLine command = e.getCommandLine();
        PrintWriter err = command.getErr();
        String message = String.valueOf(e.getMessage());
        String sentence = message.equals(NO_COMMAND)
                ? "Say what to do: "
                        + String.join(", ", command.getSubcommands().keySet())
                : plain(message);
        err.printf("lungwort: %s%s%n", sentence, sentence.endsWith(".") ? "" : ".");
        UnmatchedArgumentException.printSuggestions(e, err);
        err.printf("See: %s --help%n", command.getCommandSpec().qualifiedName());
        err.flush();
        return Main.EXIT_BAD_USAGE;
    }

    /** Types of a programming language say nothing to people. */
    private static String plain(String message) {
        String known = UNMATCHED.matcher(message).replaceFirst("$1 is not known here");
        return DATE.matcher(known)
                .replaceFirst("'$1' is not a date; write it as 2026-03-14")
                .replace("is not an int", "is not a whole number")
                .replace("is not a long", "is not a whole number")
                .replace("is not a double", "is not a number");
    }
}
