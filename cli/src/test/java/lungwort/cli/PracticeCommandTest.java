package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import lungwort.diary.Examples;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** Sounds to train the ear on, for people who have never seen a terminal. */
class PracticeCommandTest {
    @TempDir
    Path temp;

    private String said = "";

    private String run(String... arguments) {
        assertThat(exit(arguments)).as(said).isZero();
        return said;
    }

    private int exit(String... arguments) {
        StringWriter out = new StringWriter();
        CommandLine main = Main.commandLine(Examples::service, writer -> null);
        main.setOut(new PrintWriter(out));
        main.setErr(new PrintWriter(out));
        int exit = main.execute(arguments);
        said = out.toString();
        return exit;
    }

    @Test
    void aQuizSaysWhatToDoNextAndItsAnswersCanBeRead() throws Exception {
        Path quiz = temp.resolve("quiz");

        String said = run("practice", "--quiz", "2", "--out", quiz.toString());

        assertThat(said)
                .contains(
                        "write down what you hear", quiz.resolve("answers.txt").toString());
        assertThat(Files.readString(quiz.resolve("answers.txt")))
                .contains("sound-01.wav: ", "sound-02.wav: ", "does not make a listener");
    }

    @Test
    void aQuizOfNoSoundsIsRefused() {
        for (String none : new String[] {"0", "-1", "201"}) {
            assertThat(exit("practice", "--quiz", none, "--out", temp.toString()))
                    .isEqualTo(2);
            assertThat(said).startsWith("lungwort: --quiz takes a number from 1 to 200.");
        }
        assertThat(temp).isEmptyDirectory();
    }

    /** Common practice: a folder of somebody's recordings may hold a wheeze.wav too. */
    @Test
    void aRecordingOfThatNameIsNotWrittenOver() throws Exception {
        Path own = Files.writeString(temp.resolve("wheeze.wav"), "a recording of somebody");

        assertThat(exit("practice", "usual", "wheeze", "--out", temp.toString()))
                .isEqualTo(1);

        assertThat(own).hasContent("a recording of somebody");
        assertThat(said).contains("wheeze.wav: there is another sound of this name already");
    }

    @Test
    void whatWasMadeBeforeIsMadeAgain() {
        run("practice", "wheeze", "--out", temp.toString());
        run("practice", "usual", "--out", temp.toString());
        run("practice", "wheeze", "--out", temp.toString());
        run("practice", "--quiz", "2", "--out", temp.toString());
        run("practice", "--quiz", "2", "--seed", "5", "--out", temp.toString());
    }

    @Test
    void aListOfSomebodysOwnIsNotWrittenOver() throws Exception {
        Path own = Files.writeString(temp.resolve("contents.txt"), "what stands on my shelf");

        assertThat(exit("practice", "usual", "--out", temp.toString())).isEqualTo(1);

        assertThat(own).hasContent("what stands on my shelf");
        assertThat(temp.resolve("usual.wav")).doesNotExist();
    }

    @Test
    void whatIsInASoundIsToldInWordsWithItsTimes() throws Exception {
        String said = run("practice", "wheeze", "usual", "--out", temp.toString());

        assertThat(said).contains(temp.resolve("contents.txt").toString());
        assertThat(Files.readString(temp.resolve("contents.txt")))
                .containsPattern("wheeze.wav: wheeze\\R    .+\\R    From the beginning: wheeze \\d+\\.\\d s, ")
                .containsPattern("usual.wav: usual\\R    .+\\R    No extra sound is in it\\.");
    }
}
