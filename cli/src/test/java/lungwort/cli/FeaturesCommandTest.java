package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;
import lungwort.diary.Examples;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.FeatureDefinition;
import lungwort.practice.PracticeScenes;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The table of features is what datasets/README.md says of it. */
class FeaturesCommandTest {
    private static final double SECONDS = 4;

    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();
    private Path chest;

    private int run(Object... arguments) {
        CommandLine main = Main.commandLine(Examples::service, writer -> null);
        main.setOut(new PrintWriter(out));
        main.setErr(new PrintWriter(err));
        String[] words = new String[arguments.length];
        for (int i = 0; i < words.length; i++) {
            words[i] = arguments[i].toString();
        }
        return main.execute(words);
    }

    private List<CSVRecord> table() throws Exception {
        return CSVFormat.RFC4180.parse(new java.io.StringReader(out.toString())).getRecords();
    }

    @BeforeEach
    void record() {
        Recording usual = PracticeScenes.of("usual").scene().synthesise().recording();
        chest = folder.resolve("left, \"base\".wav");
        WavWriter.write(chest, usual.slice(0, SECONDS), WavWriter.Encoding.PCM_16);
    }

    @Test
    void theColumnsAreTheCataloguesAndEveryLineIsFull() throws Exception {
        assertThat(run("features", chest)).as(err.toString()).isZero();

        List<CSVRecord> table = table();
        List<String> names = FeatureCatalogue.segment().features().stream()
                .map(FeatureDefinition::name)
                .toList();
        assertThat(table.get(0).stream().limit(3)).containsExactly("file", "startSeconds", "endSeconds");
        assertThat(table.get(0).stream().skip(3)).containsExactlyElementsOf(names);
        assertThat(table).hasSize(5);
        for (CSVRecord line : table.subList(1, table.size())) {
            assertThat(line.get(0)).isEqualTo("left, \"base\".wav");
            assertThat(line.size()).isEqualTo(names.size() + 3);
            assertThat(line.stream().skip(1).map(Double::valueOf)).allMatch(Double::isFinite);
            assertThat(Double.parseDouble(line.get(2)) - Double.parseDouble(line.get(1)))
                    .isCloseTo(1.6, within(1e-9));
        }
        assertThat(table.get(4).get(2)).isEqualTo("4.000");
    }

    /** Whoever measures a folder for each person has many of the same name. */
    @Test
    void recordingsOfOneNameAreToldApartByTheirFolders() throws Exception {
        Path here = Files.copy(chest, Files.createDirectory(folder.resolve("a")).resolve("base.wav"));
        Path there =
                Files.copy(chest, Files.createDirectory(folder.resolve("b")).resolve("base.wav"));

        assertThat(run("features", chest, here, there)).as(err.toString()).isZero();

        assertThat(table().stream().skip(1).map(line -> line.get(0)).distinct())
                .containsExactly("left, \"base\".wav", here.toString(), there.toString());
    }

    @Test
    void aSpanOfNoRecordingIsBadUsage() {
        assertThat(run("features", "--start", "1")).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(run("features", "--end", "1")).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(out.toString()).isEmpty();
    }

    /** RFC 4180, section 2, from memory: every line ends with CR and LF. */
    @Test
    void everyLineEndsAsTheStandardSays() {
        run("features", chest);

        assertThat(out.toString().split("\r\n", -1)).hasSize(6);
        assertThat(out.toString().replace("\r\n", "")).doesNotContain("\n");
    }

    @Test
    void oneBadFileDoesNotCutTheTable() throws Exception {
        Path bad = Files.writeString(folder.resolve("bad.wav"), "RIFF");

        assertThat(run("features", bad, chest)).isEqualTo(Main.EXIT_BAD_INPUT);

        assertThat(table()).hasSize(5);
        assertThat(err.toString()).startsWith("lungwort: ").contains("bad.wav").hasLineCount(1);
    }

    @Test
    void aSpanIsOneLine() throws Exception {
        assertThat(run("features", chest, "--start", "1", "--end", "2.5")).isZero();

        assertThat(table()).hasSize(2);
        assertThat(table().get(1).get(1)).isEqualTo("1.000");
        assertThat(table().get(1).get(2)).isEqualTo("2.500");
        assertThat(table().get(1).get(3)).isEqualTo("1.5");
    }

    @Test
    void aSpanThatCannotBeIsBadUsageAndPrintsNoTable() {
        for (List<String> span : List.of(
                List.of("--start", "3", "--end", "2"),
                List.of("--start", "-1"),
                List.of("--start", "NaN"),
                List.of("--end", "0"))) {
            List<Object> arguments = new ArrayList<>(List.of("features", chest));
            arguments.addAll(span);
            assertThat(run(arguments.toArray())).as("%s", span).isEqualTo(Main.EXIT_BAD_USAGE);
        }
        assertThat(out.toString()).isEmpty();
    }

    @Test
    void aSpanBeyondTheEndIsBadInput() {
        assertThat(run("features", chest, "--start", "9")).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(run("features", chest, "--end", "9")).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("it is 4.000 s long; name times within it.");
    }
}
