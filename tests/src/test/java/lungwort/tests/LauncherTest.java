package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
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
        // No build within a build: what is packed is what is tested.
        builder.environment().put("LUNGWORT_REBUILD", "no");
        builder.environment().putAll(environment);
        return said(builder);
    }

    private static String said(ProcessBuilder builder) throws IOException, InterruptedException {
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

    /** A tree of its own, whose Maven and Java only say that they were called. */
    private final class Tree {
        private final Path top = folder.resolve("tree");
        private final Path source = top.resolve("core/src/main/java/lungwort/Sound.java");
        private final Path jar = top.resolve("cli/target/lungwort.jar");

        Tree(String maven) throws IOException {
            for (Path file : List.of(top.resolve("pom.xml"), source, top.resolve("models/CARD.md"), jar)) {
                Files.createDirectories(file.getParent());
                Files.writeString(file, "");
            }
            Files.copy(TOP, top.resolve("lungwort"), StandardCopyOption.COPY_ATTRIBUTES);
            program("java", "echo program ran");
            if (!maven.isEmpty()) {
                program("mvn", maven);
            }
            for (String tool : List.of("dirname", "readlink", "find", "head")) {
                program(tool, "exec " + installed(tool) + " \"$@\"");
            }
            try (Stream<Path> all = Files.walk(top)) {
                all.forEach(path -> touch(path, 1_000));
            }
            touch(jar, 2_000);
        }

        private void program(String name, String does) throws IOException {
            Path program = Files.createDirectories(top.resolve("bin")).resolve(name);
            Files.writeString(program, "#!/bin/sh\n" + does + "\n");
            Files.setPosixFilePermissions(program, PosixFilePermissions.fromString("rwxr-xr-x"));
        }

        String run(Map<String, String> environment) throws IOException, InterruptedException {
            ProcessBuilder builder = new ProcessBuilder(top.resolve("lungwort").toString()).redirectErrorStream(true);
            builder.environment().clear();
            builder.environment().put("PATH", top.resolve("bin").toString());
            builder.environment().putAll(environment);
            return said(builder).strip();
        }
    }

    private static Path installed(String tool) {
        return Stream.of("/usr/bin", "/bin")
                .map(folder -> Path.of(folder, tool))
                .filter(Files::isExecutable)
                .findFirst()
                .orElseThrow();
    }

    private static void touch(Path path, long seconds) {
        try {
            Files.setLastModifiedTime(path, FileTime.from(seconds, TimeUnit.SECONDS));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static final String TELLS = "echo maven ran";

    @Test
    void whatIsBuiltRunsAtOnce() throws Exception {
        assertThat(new Tree(TELLS).run(Map.of())).isEqualTo("program ran");
    }

    @Test
    void newerSourcesAreBuiltFirst() throws Exception {
        Tree tree = new Tree(TELLS);
        touch(tree.source, 3_000);

        assertThat(tree.run(Map.of()))
                .startsWith("lungwort: its sources are newer than the program; building it again")
                .contains("maven ran")
                .endsWith("program ran");
        assertThat(tree.run(Map.of("LUNGWORT_REBUILD", "no"))).isEqualTo("program ran");
    }

    @Test
    void aSourceThatWasTakenAwayCounts() throws Exception {
        Tree tree = new Tree(TELLS);
        Files.delete(tree.source);

        assertThat(tree.run(Map.of())).contains("maven ran");
    }

    @Test
    void aNewerModelCounts() throws Exception {
        Tree tree = new Tree(TELLS);
        touch(tree.top.resolve("models/CARD.md"), 3_000);

        assertThat(tree.run(Map.of())).contains("maven ran");
    }

    @Test
    void theOlderProgramRunsWhereItCannotBeBuilt() throws Exception {
        Tree tree = new Tree("echo no such library; exit 1");
        touch(tree.source, 3_000);

        assertThat(tree.run(Map.of()))
                .contains("no such library")
                .contains("lungwort: the build failed; see the messages above. Running the older one.")
                .endsWith("program ran");
    }

    @Test
    void withoutMavenItSaysThatItIsOld() throws Exception {
        Tree tree = new Tree("");
        touch(tree.source, 3_000);

        assertThat(tree.run(Map.of()))
                .startsWith("lungwort: its sources are newer than the program, and Maven is not there")
                .endsWith("program ran");
    }
}
