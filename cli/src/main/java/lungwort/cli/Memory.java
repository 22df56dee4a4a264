package lungwort.cli;

import lungwort.BadInput;
import picocli.CommandLine.ExecutionException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.RunLast;

/** Turns a full memory into a sentence: how much a recording takes depends on its length and rate, so the remedy is the listener's. */
final class Memory {
    private Memory() {}

    /** What to tell about work that did not fit. */
    static String sentence(String what) {
        return ("%s: there is too little memory for it (Lungwort may use %d MB); cut the recording to the breaths that matter, "
                        + "15 to 30 seconds, or allow more by setting LUNGWORT_JAVA_OPTS=-Xmx2g.")
                .formatted(what, Runtime.getRuntime().maxMemory() >> 20);
    }

    /** Runs a command as usual; where the memory was not enough, what it took is free again here. */
    static int guarded(ParseResult parsed) {
        try {
            return new RunLast().execute(parsed);
        } catch (OutOfMemoryError e) {
            String sentence = sentence(name(parsed));
            throw new ExecutionException(parsed.commandSpec().commandLine(), sentence, new BadInput(sentence, e));
        }
    }

    private static String name(ParseResult parsed) {
        ParseResult deepest = parsed;
        while (deepest.hasSubcommand()) {
            deepest = deepest.subcommand();
        }
        return deepest.commandSpec().qualifiedName();
    }
}
