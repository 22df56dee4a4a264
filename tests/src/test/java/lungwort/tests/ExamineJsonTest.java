package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import javax.imageio.ImageIO;
import lungwort.audio.WavWriter;
import lungwort.practice.PracticeScenes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What others build on: the keys and ranges of {@code examine --json}, the picture, and that the same input gives the same output. */
class ExamineJsonTest {
    private static final Set<String> SUGGESTIONS =
            Set.of("continuous", "discontinuous", "both", "none-heard", "none-stands-out", "cannot-tell");
    private static final Set<String> KINDS = Set.of("wheeze", "rhonchus", "fine-crackle", "coarse-crackle");

    @TempDir
    Path folder;

    @Test
    void theDocumentedKeysAreThereWithTheirRanges() throws Exception {
        JsonNode array = new ObjectMapper()
                .readTree(Run.lungwort("examine", "--json", wav("wheeze"), wav("silence"))
                        .out());
        assertThat(array.isArray()).isTrue();
        assertThat(array).hasSize(2);
        for (JsonNode node : array) {
            assertThat(node.path("file").asText()).endsWith(".wav");
            assertThat(SUGGESTIONS).contains(node.path("suggestion").asText());
            assertThat(node.at("/probabilities/continuous").asDouble(-1)).isBetween(0.0, 1.0);
            assertThat(node.at("/probabilities/discontinuous").asDouble(-1)).isBetween(0.0, 1.0);
            assertThat(node.at("/quality/usable").isBoolean()).isTrue();
            assertThat(node.at("/quality/issues").isArray()).isTrue();
            assertThat(node.path("breaths").isArray()).isTrue();
            assertThat(node.has("respiratoryRatePerMinute")).isTrue();
            assertThat(node.path("caution").asText()).contains("does not diagnose");
            assertThat(node.path("evidence").isArray()).isTrue();
            for (JsonNode item : node.path("evidence")) {
                assertThat(KINDS).contains(item.path("kind").asText());
                assertThat(item.path("endSeconds").asDouble())
                        .isGreaterThan(item.path("startSeconds").asDouble());
            }
        }
        assertThat(array.get(0).path("evidence")).isNotEmpty();
        assertThat(array.get(0).path("heard")).isNotEmpty().allSatisfy(event -> {
            assertThat(event.path("continuous").asBoolean()).isTrue();
            assertThat(event.path("endSeconds").asDouble())
                    .isGreaterThan(event.path("startSeconds").asDouble());
            assertThat(event.path("probability").asDouble(-1)).isBetween(0.0, 1.0);
        });
        assertThat(array.get(1).path("heard").isArray()).isTrue();
        assertThat(array.get(1).path("heard")).isEmpty();
        assertThat(array.get(1).at("/quality/usable").asBoolean()).isFalse();
        assertThat(array.get(1).path("respiratoryRatePerMinute").isNull()).isTrue();
    }

    @Test
    void theSameRecordingGivesTheSameExaminationAloneAndAmongMany() throws Exception {
        Path one = wav("both");
        JsonNode alone = new ObjectMapper()
                .readTree(Run.lungwort("examine", "--json", one).out());
        JsonNode among = new ObjectMapper()
                .readTree(Run.lungwort("examine", "--json", wav("usual"), one, wav("wheeze"), wav("rhonchus"))
                        .out());
        assertThat(among.get(1)).isEqualTo(alone.get(0));
    }

    @Test
    void aPictureIsDrawnForOneAndForSeveral() throws Exception {
        Path picture = folder.resolve("one.png");
        assertThat(Run.lungwort("examine", wav("wheeze"), "--picture", picture).exit())
                .isZero();
        assertThat(ImageIO.read(picture.toFile()).getWidth()).isGreaterThan(1000);
        Path several = folder.resolve("pictures");
        assertThat(Run.lungwort("examine", wav("wheeze"), wav("usual"), "--picture", several)
                        .exit())
                .isZero();
        try (var files = Files.list(several)) {
            assertThat(files).hasSize(2).allMatch(file -> file.toString().endsWith(".png"));
        }
    }

    /** Whoever keeps a folder for each person has many of the same name; where a name is the only one, the folder, which can hold a person's, is left out. */
    @Test
    void recordingsOfOneNameAreToldApartByTheirFolders() throws Exception {
        Path all = people();

        JsonNode array = new ObjectMapper()
                .readTree(Run.lungwort("examine", "--json", all).out());

        assertThat(array.findValuesAsText("file"))
                .containsExactly(
                        all.resolve("a").resolve("base.wav").toString(),
                        all.resolve("b").resolve("base.wav").toString(),
                        "top.wav");
        assertThat(Run.lungwort("examine", all).out()).contains(all.resolve("b").resolve("base.wav") + "  (1.0 s)");
    }

    @Test
    void aLinkToAFolderIsThatFolder() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("link"), people());

        Run run = Run.lungwort("examine", "--json", link);

        assertThat(run.exit()).as(run.err()).isZero();
        assertThat(new ObjectMapper().readTree(run.out()).findValuesAsText("file"))
                .containsExactly(
                        link.resolve("a").resolve("base.wav").toString(),
                        link.resolve("b").resolve("base.wav").toString(),
                        "top.wav");
    }

    /** The library tells no words of a command line, so the command adds its own. */
    @Test
    void aModelThatIsNotThereIsRefusedWithTheCommandThatMakesOne() {
        Run run = Run.lungwort("examine", wav("silence"), "--model", folder.resolve("none.lungwort"));

        assertThat(run.exit()).isEqualTo(1);
        assertThat(run.err())
                .isEqualTo(
                        "lungwort: %s: there is no such model file; name one that is there. Models are made with `lungwort train`.%n"
                                .formatted(folder.resolve("none.lungwort")));
    }

    private Path people() throws Exception {
        Path all = Files.createDirectory(folder.resolve("people"));
        for (String file : List.of("a/base.wav", "b/base.wav", "top.wav")) {
            Path target = all.resolve(file);
            Files.createDirectories(target.getParent());
            WavWriter.write(
                    target,
                    PracticeScenes.of("usual").scene().synthesise().recording().slice(0, 1),
                    WavWriter.Encoding.PCM_16);
        }
        return all;
    }

    private Path wav(String id) {
        Path file = folder.resolve(id + ".wav");
        WavWriter.write(file, PracticeScenes.of(id).scene().synthesise().recording(), WavWriter.Encoding.PCM_16);
        return file;
    }
}
