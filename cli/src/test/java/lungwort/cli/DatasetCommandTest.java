package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;
import lungwort.json.Json;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class DatasetCommandTest {
    private static final String ID = "10000001_4.5_0_p1_1";

    @TempDir
    Path parent;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    @BeforeEach
    void oneTrainingRecordingOf36Seconds() throws IOException {
        Path json = Files.createDirectories(parent.resolve("BioCAS2022/train2022_json"));
        Path wav = Files.createDirectories(parent.resolve("BioCAS2022/train2022_wav"));
        Files.writeString(
                json.resolve(ID + ".json"),
                "{\"record_annotation\":\"DAS\",\"event_annotation\":[{\"start\":\"10\",\"end\":\"900\",\"type\":\"Fine Crackle\"}]}");
        WavWriter.write(
                wav.resolve(ID + ".wav"), new Recording(new double[36_000], 1000, "test"), WavWriter.Encoding.PCM_16);
    }

    private int run(String... args) {
        CommandLine line = Main.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        return line.execute(args);
    }

    @Test
    void textShowsCountsClassesAgesAndWhatDiffersFromTheRelease() {
        assertThat(run("dataset", parent.toString())).isZero();
        assertThat(out.toString().lines())
                .anyMatch(line -> line.matches("SPRSound in .*BioCAS2022"))
                .anyMatch(line -> line.matches("recordings +1"))
                .anyMatch(line -> line.matches("audio, hours +0\\.01"))
                .anyMatch(line -> line.matches("  fine-crackle +1"))
                .anyMatch(line -> line.matches("  das +1"))
                .anyMatch(line -> line.equals("ages: 4.5 to 4.5 years, median 4.5; unknown: 0 patients"))
                .anyMatch(line -> line.matches("digest of train: [0-9a-f]{64}"))
                .anyMatch(line -> line.startsWith("warning: train, recordings: 1 found where the release holds 1949"))
                .noneMatch(line -> line.contains("stridor"));
        assertThat(err.toString()).isEmpty();
    }

    @Test
    void jsonIsAnArrayWithOneObjectForEachDatabase() {
        assertThat(run("dataset", "--json", parent.resolve("BioCAS2022").toString()))
                .isZero();
        JsonNode json = Json.parse(out.toString(), "output");
        assertThat(json).hasSize(1);
        assertThat(json.at("/0/database").asText()).isEqualTo("SPRSound");
        assertThat(json.at("/0/parts/0/eventLabels/fine-crackle").asInt()).isEqualTo(1);
        assertThat(json.at("/0/parts/0/audioSeconds").asDouble()).isEqualTo(36);
        assertThat(json.at("/0/counts/0/expected").asInt()).isEqualTo(1949);
        assertThat(json.at("/0/warnings")).hasSize(3);
    }

    /** Names of labels, sites and devices are the database's own. */
    @Test
    void everyFieldOfTheJsonStandsInTheDocument() throws IOException {
        assertThat(run("dataset", "--json", parent.resolve("BioCAS2022").toString()))
                .isZero();
        JsonNode one = Json.parse(out.toString(), "output").get(0);
        String document = Files.readString(Path.of("..", "datasets", "README.md"));
        String section = document.substring(document.indexOf("`dataset --json`, an array"));
        for (String pointer : new String[] {"", "/parts/0", "/ages", "/counts/0"}) {
            assertThat(one.at(pointer).fieldNames())
                    .toIterable()
                    .isNotEmpty()
                    .allSatisfy(name -> assertThat(section.substring(0, section.indexOf("\n\n")))
                            .contains("`" + name + "`"));
        }
    }

    @Test
    void aDamagedFolderIsOneSentenceAndExitOne() throws IOException {
        Files.writeString(parent.resolve("BioCAS2022/train2022_json/" + ID + ".json"), "{");
        assertThat(run("dataset", parent.toString())).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(out.toString()).isEmpty();
        assertThat(err.toString().lines())
                .hasSize(1)
                .allMatch(line -> line.startsWith("lungwort: ") && line.contains(ID + ".json: it is not valid JSON"));
    }

    @Test
    void noFolderGivenIsBadUsage() {
        assertThat(run("dataset")).isEqualTo(Main.EXIT_BAD_USAGE);
    }
}
