package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class UsageTest {
    private static String said(String... arguments) {
        StringWriter err = new StringWriter();
        CommandLine main = Main.commandLine().setErr(new PrintWriter(err));
        assertThat(main.execute(arguments)).isEqualTo(Main.EXIT_BAD_USAGE);
        return err.toString();
    }

    @Test
    void noCommandSaysWhichThereAre() {
        assertThat(said())
                .startsWith("lungwort: Say what to do: page, round, diary, report, examine, compare, ")
                .endsWith("See: lungwort --help\n")
                .hasLineCount(2);
    }

    /** People count no arguments from 0. */
    @Test
    void whatIsNotKnownIsNamedWithoutAPlaceInAList() {
        assertThat(said("exmine"))
                .startsWith("lungwort: 'exmine' is not known here.\n")
                .contains("Did you mean: lungwort examine");
        assertThat(said("dataset", "one", "two", "three"))
                .startsWith("lungwort: 'two', 'three' is not known here.\n")
                .doesNotContain("index");
    }

    @Test
    void aNumberThatIsNoneAndAnOptionThatIsNoneAreNamed() {
        assertThat(said("practice", "--quiz", "many")).contains("'many' is not a whole number.");
        assertThat(said("examine", "--loud")).contains("Unknown option: '--loud'");
    }
}
