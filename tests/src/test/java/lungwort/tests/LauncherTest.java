package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The launcher at the top of the tree, from a folder elsewhere, through a link, in a bare locale. */
@DisabledOnOs(OS.WINDOWS)
class LauncherTest {
    private static final Path TOP =
            Path.of("").toAbsolutePath().getParent().resolve("lungwort").normalize();

    @TempDir
    Path folder;

    private String run(Path launcher, Map<String, String> environment, String... arguments)
            throws IOException, InterruptedException {
        boolean built = Files.exists(TOP.resolveSibling("cli/target/lungwort.jar"));
        if (!built) {
            System.out.println("LauncherTest skipped: the program is not packed yet; mvn verify packs it.");
        }
        assumeTrue(built, "the program is packed");
        String[] command = new String[arguments.length + 1];
        command[0] = launcher.toString();
        System.arraycopy(arguments, 0, command, 1, arguments.length);
        ProcessBuilder builder =
                new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true);
        builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
        builder.environment().putAll(environment);
        Process process = builder.start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return said;
    }

    /** As in a container, over ssh, or from cron: there Java would take every letter beyond ASCII for a question mark. */
    @Test
    void namesKeepTheirLettersInTheBareLocale() throws Exception {
        assumeTrue("UTF-8".equals(System.getProperty("sun.jnu.encoding")), "names of files are UTF-8 here");

        String said = run(TOP, Map.of("LC_ALL", "C", "LANG", "C"), "examine", "brúst ö.wav");

        assertThat(said.strip())
                .isEqualTo("lungwort: brúst ö.wav: there is no such file; check the name and the folder.");
    }

    @Test
    void aLinkToTheLauncherFindsTheProgram() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("listen to a chest"), TOP);

        String said = run(link, Map.of(), "--version");

        Files.delete(link);
        assertThat(said).startsWith("lungwort ");
    }

    @Test
    void optionsForJavaReachIt() throws Exception {
        assertThat(run(TOP, Map.of("LUNGWORT_JAVA_OPTS", "-showversion"), "--version"))
                .contains("VM")
                .contains("lungwort ");
    }
}
