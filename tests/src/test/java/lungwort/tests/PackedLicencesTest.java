package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.jar.JarFile;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What the packed program tells of the licences of what it holds. Common practice: GPL-3.0 sections 4 and 6, Apache-2.0 section 4 ask for the texts and notices to go along. */
class PackedLicencesTest {
    private static final Path JAR = Path.of("").toAbsolutePath().resolveSibling("cli/target/lungwort.jar");
    private static final Pattern BUILT_BY_MAVEN = Pattern.compile("META-INF/maven/([^/]+)/([^/]+)/pom\\.xml");

    @SuppressWarnings("NullAway.Init") // before each test
    private JarFile jar;

    @BeforeEach
    void open() throws IOException {
        if (!Files.exists(JAR)) {
            System.out.println("PackedLicencesTest skipped: the program is not packed yet; mvn verify packs it.");
        }
        assumeTrue(Files.exists(JAR), "the program is packed");
        jar = new JarFile(JAR.toFile());
    }

    @AfterEach
    void close() throws IOException {
        if (jar != null) {
            jar.close();
        }
    }

    private String text(String name) throws IOException {
        ZipEntry entry = jar.getEntry(name);
        assertThat(entry).as(name).isNotNull();
        return new String(jar.getInputStream(entry).readAllBytes(), StandardCharsets.UTF_8);
    }

    /** Libraries leave their POM in a jar: a second witness beside the list that the build makes. */
    @Test
    void everyLibraryInsideIsListedWithItsLicence() throws IOException {
        String listed = text("META-INF/THIRD-PARTY.txt");
        List<String> inside = jar.stream()
                .map(entry -> BUILT_BY_MAVEN.matcher(entry.getName()))
                .filter(Matcher::matches)
                .filter(found -> !found.group(1).equals("lungwort"))
                .map(found -> "(%s:%s)".formatted(found.group(1), found.group(2)))
                .toList();
        assertThat(inside)
                .hasSizeGreaterThan(20)
                .allSatisfy(library -> assertThat(listed)
                        .containsPattern(Pattern.quote(library) + "\\R    (Apache|BSD|EPL|GPL|LGPL|MIT)"));
        assertThat(listed).contains("(org.jcraft:jorbis)", "(com.github.axet:TarsosDSP)");
    }

    @Test
    void ourLicenceAndTheNoticesOfLibrariesGoAlong() throws IOException {
        assertThat(text("META-INF/LUNGWORT-LICENSE.txt")).contains("GNU GENERAL PUBLIC LICENSE", "Version 3");
        assertThat(text("META-INF/THIRD-PARTY.txt")).contains("META-INF/LUNGWORT-LICENSE.txt");
        // one file of each name in the end: those of all libraries must be in it
        assertThat(text("META-INF/NOTICE.txt") + text("META-INF/NOTICE"))
                .contains("Apache Commons Math", "Apache Commons CSV", "Apache PDFBox", "Jackson JSON processor");
    }
}
