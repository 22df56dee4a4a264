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

    private String run(String... arguments) {
        StringWriter out = new StringWriter();
        CommandLine main = Main.commandLine(Examples::service, writer -> null);
        main.setOut(new PrintWriter(out));
        assertThat(main.execute(arguments)).isZero();
        return out.toString();
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
    void whatIsInASoundIsToldInWordsWithItsTimes() throws Exception {
        String said = run("practice", "wheeze", "usual", "--out", temp.toString());

        assertThat(said).contains(temp.resolve("contents.txt").toString());
        assertThat(Files.readString(temp.resolve("contents.txt")))
                .containsPattern("wheeze.wav: wheeze\\R    .+\\R    From the beginning: wheeze \\d+\\.\\d s, ")
                .containsPattern("usual.wav: usual\\R    .+\\R    No extra sound is in it\\.");
    }
}
