package lungwort.tests;

import java.io.PrintWriter;
import java.io.StringWriter;
import lungwort.cli.Main;
import picocli.CommandLine;

/**
 * One run of the command line inside this process.
 *
 * @param exit exit code
 * @param out what it printed
 * @param err what it said on the error stream
 */
record Run(int exit, String out, String err) {
    static Run lungwort(Object... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Main.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
        String[] words = new String[arguments.length];
        for (int i = 0; i < words.length; i++) {
            words[i] = arguments[i].toString();
        }
        int exit = line.execute(words);
        return new Run(exit, out.toString(), err.toString());
    }
}
