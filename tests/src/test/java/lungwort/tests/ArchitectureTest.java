package lungwort.tests;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.core.importer.Location;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import java.util.Arrays;
import java.util.List;

/** Holds the order of the packages of core, and keeps borrowed libraries behind the package that wraps them. */
@AnalyzeClasses(
        packages = "lungwort",
        importOptions = {ImportOption.DoNotIncludeTests.class, ArchitectureTest.NoTestJars.class})
class ArchitectureTest {
    /** In a whole build the test classes of core come as a jar, which the ready-made option does not know for tests. */
    static final class NoTestJars implements ImportOption {
        @Override
        public boolean includes(Location location) {
            return !location.contains("-tests.jar");
        }
    }

    /** Each package stands only on those before it. */
    private static final List<String> CORE = List.of(
            "audio",
            "signal",
            "heart",
            "breath",
            "sound",
            "quality",
            "feature",
            "classify",
            "examine",
            "dataset",
            "score",
            "guidance",
            "practice");

    @ArchTest
    static void eachPackageOfCoreStandsOnlyOnThoseBeforeIt(JavaClasses classes) {
        for (int i = 0; i < CORE.size() - 1; i++) {
            String[] later = CORE.subList(i + 1, CORE.size()).stream()
                    .map(name -> "lungwort." + name + "..")
                    .toArray(String[]::new);
            noClasses()
                    .that()
                    .resideInAPackage("lungwort." + CORE.get(i) + "..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(later)
                    .allowEmptyShould(true)
                    .check(classes);
        }
    }

    @ArchTest
    static void coreKnowsNoWebNoDatabaseNoDesktop(JavaClasses classes) {
        String[] core = CORE.stream().map(name -> "lungwort." + name + "..").toArray(String[]::new);
        noClasses()
                .that()
                .resideInAnyPackage(core)
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "java.awt..",
                        "javax.swing..",
                        "javax.sound..",
                        "javax.imageio..",
                        "java.sql..",
                        "io.javalin..",
                        "picocli..",
                        "lungwort.cli..")
                .check(classes);
    }

    @ArchTest
    static void borrowedLibrariesStayBehindOnePackage(JavaClasses classes) {
        onlyIn(classes, "smile..", "lungwort.classify..");
        onlyIn(classes, "be.tarsos..", "lungwort.signal..", "lungwort.audio..");
        onlyIn(classes, "org.jtransforms..", "lungwort.signal..");
    }

    @ArchTest
    static void theDecoderThatMayDownloadAProgramIsBanned(JavaClasses classes) {
        noClasses()
                .should()
                .dependOnClassesThat()
                .haveNameMatching("be\\.tarsos\\.dsp\\.io\\.PipeDecoder.*")
                .check(classes);
    }

    private static void onlyIn(JavaClasses classes, String library, String... homes) {
        String[] others = Arrays.copyOf(homes, homes.length);
        noClasses()
                .that()
                .resideOutsideOfPackages(others)
                .should()
                .dependOnClassesThat()
                .resideInAPackage(library)
                .check(classes);
    }
}
