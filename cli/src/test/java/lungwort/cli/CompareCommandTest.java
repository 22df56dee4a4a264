package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.BooleanNode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.json.Json;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScenes;
import lungwort.quality.Quality;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The command from the words typed to the words printed. Sound is synthesised, and the examiner tells what was put into it. */
class CompareCommandTest {
    @TempDir
    static Path temp;

    private static String usual = "";
    private static String wheeze = "";

    private static final Map<String, PracticeRecording> SOUNDS = Map.of(
            "usual.wav", PracticeScenes.of("usual").scene().synthesise(),
            "wheeze.wav", PracticeScenes.of("wheeze").scene().synthesise());

    @BeforeAll
    static void writeTheSounds() {
        SOUNDS.forEach(
                (name, sound) -> WavWriter.write(temp.resolve(name), sound.recording(), WavWriter.Encoding.PCM_16));
        usual = temp.resolve("usual.wav").toString();
        wheeze = temp.resolve("wheeze.wav").toString();
    }

    private static Examination truth(Recording recording) {
        PracticeRecording sound = java.util.Objects.requireNonNull(SOUNDS.get(recording.origin()));
        List<Evidence> evidence = sound.truth().sounds().stream()
                .map(s -> new Evidence(s, lungwort.breath.BreathPhase.UNKNOWN, Double.NaN))
                .toList();
        boolean extra = !evidence.isEmpty();
        return new Examination(
                recording.origin(),
                recording.durationSeconds(),
                recording.source(),
                extra ? Suggestion.CONTINUOUS : Suggestion.NONE_HEARD,
                new Examination.Probabilities(extra ? 0.9 : 0.1, 0.1, 0.1),
                new Quality(true, List.of()),
                new lungwort.breath.Breathing(sound.truth().breaths(), null),
                evidence,
                List.of(),
                "truth");
    }

    private record Result(int exit, String out, String err) {}

    private static Result run(String... arguments) {
        return run(CompareCommandTest::truth, arguments);
    }

    private static Result run(Function<Recording, Examination> examiner, String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine main = Main.commandLine(model -> examiner);
        main.setOut(new PrintWriter(out));
        main.setErr(new PrintWriter(err));
        String[] all = new String[arguments.length + 1];
        all[0] = "compare";
        System.arraycopy(arguments, 0, all, 1, arguments.length);
        return new Result(main.execute(all), out.toString(), err.toString());
    }

    @Test
    void aFullMemoryIsOneSentence() {
        Result result = run(
                recording -> {
                    throw new OutOfMemoryError("Java heap space");
                },
                wheeze,
                usual);
        assertThat(result.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(result.err().strip().lines()).singleElement().asString().contains("too little memory");
    }

    /** That no number differs is otherwise read as if nothing had changed in the chest. */
    @Test
    void aRecordingBesideItselfIsSaidToTellNothing() throws Exception {
        Path copy = Files.createDirectories(temp.resolve("copies")).resolve("wheeze.wav");
        Files.copy(Path.of(wheeze), copy);
        String nothing =
                " hold the very same recording: that it does not differ from itself says nothing of the chest.";

        assertThat(run(wheeze, copy.toString()).out()).startsWith("%s and %s%s".formatted(wheeze, copy, nothing));
        assertThat(run(usual, "--usual", wheeze, "--usual", wheeze).out())
                .startsWith("%s and %s%s".formatted(wheeze, wheeze, nothing));
        assertThat(run(usual, wheeze).out()).doesNotContain(nothing);
        assertThat(Json.parse(run(wheeze, wheeze, "--json").out(), "output").get("sameRecording"))
                .isEqualTo(BooleanNode.TRUE);
        assertThat(Json.parse(run(usual, wheeze, "--json").out(), "output").get("sameRecording"))
                .isEqualTo(BooleanNode.FALSE);
    }

    /** Phones call the first recording of every day the same. */
    @Test
    void takesOfOneNameAreToldApartByTheirFolders() throws Exception {
        Path other = Files.createDirectories(temp.resolve("tuesday")).resolve("wheeze.wav");
        Files.copy(Path.of(usual), other);

        assertThat(run(wheeze, other.toString()).out()).startsWith("first: %s%nsecond: %s%n".formatted(wheeze, other));
        assertThat(run(wheeze, usual).out()).startsWith("first: wheeze.wav%nsecond: usual.wav%n".formatted());
    }

    /** What would not be done is refused, not passed over. */
    @Test
    void againstTheUsualThereIsNoPictureAndNoRelation() {
        Path picture = temp.resolve("usual.png");
        for (List<String> more : List.of(List.of("--picture", picture.toString()), List.of("--as", "left-right"))) {
            Result result = run(Stream.concat(Stream.of(usual, "--usual", wheeze), more.stream())
                    .toArray(String[]::new));
            assertThat(result.exit()).isEqualTo(Main.EXIT_BAD_USAGE);
            assertThat(result.err()).contains("--picture and --as are for two recordings side by side");
            assertThat(result.out()).isEmpty();
        }
        assertThat(picture).doesNotExist();
    }

    @Test
    void beforeAndAfterSaysWhatClearedWithTheNumbers() {
        Result result = run(wheeze, usual, "--as", "before-after");
        assertThat(result.exit()).as(result.err()).isZero();
        assertThat(result.out())
                .contains(
                        "The before take suggests a continuous extra sound; the after take no extra sound (which is no all-clear).")
                .contains("The continuous sound cleared")
                .containsPattern("Share of the breathing it fills: [1-9][0-9.]* % before, 0.0 % after")
                .contains("Spectrum, third-octaves")
                .contains("no difference is no all-clear");
    }

    @Test
    void jsonHoldsEveryMeasureWithItsRepeatability() {
        Result result = run(usual, wheeze, "--as", "left-right", "--json");
        JsonNode node = Json.parse(result.out(), "output");
        assertThat(node.get("relation").asText()).isEqualTo("left-right");
        assertThat(node.get("differences"))
                .anyMatch(d -> d.get("measure").asText().equals("level-200-400")
                        && d.get("repeatability").asDouble() > 0
                        && Math.abs(d.get("second").asDouble()
                                        - d.get("first").asDouble()
                                        - d.get("difference").asDouble())
                                < 1e-9);
        assertThat(node.get("first").get("spectrum")).hasSize(13);
        assertThat(node.get("clearing")).isEmpty();
        assertThat(node.get("caution").asText()).contains("no diagnosis");
    }

    /** Keys by measure are ids, not fields. */
    @Test
    void everyFieldStandsInTheReadmeOfTheData() throws Exception {
        String readme = Files.readString(Path.of("..", "datasets", "README.md"));
        Set<String> fields = new TreeSet<>();
        fields(Json.parse(run(wheeze, usual, "--as", "before-after", "--json").out(), "output"), fields);
        fields(Json.parse(run(wheeze, "--usual", usual, "--json").out(), "output"), fields);

        assertThat(fields).hasSizeGreaterThan(30).contains("repeatability", "state", "decimals", "hz");
        assertThat(fields).allMatch(field -> readme.contains("`" + field + "`"));
    }

    private static void fields(JsonNode node, Set<String> fields) {
        node.properties().forEach(field -> {
            fields.add(field.getKey());
            if (!field.getKey().equals("values")) {
                fields(field.getValue(), fields);
            }
        });
        if (node.isArray()) {
            node.forEach(item -> fields(item, fields));
        }
    }

    @Test
    void theSameFileTwiceDiffersInNothing() {
        JsonNode node = Json.parse(run(usual, usual, "--json").out(), "output");
        assertThat(node.get("differences"))
                .isNotEmpty()
                .allMatch(d ->
                        d.get("difference").asDouble() == 0 && !d.get("exceeds").asBoolean());
    }

    @Test
    void anotherDeviceIsSaidToTakeLevelsAlong() {
        Result result = run(usual, wheeze, "--other-device");
        assertThat(result.out())
                .contains("Another device or setting was used: no longer comparable are level 100 to 200 Hz");
        assertThat(result.out()).doesNotContain("level 100 to 200 Hz  ");
    }

    @Test
    void todayAgainstTheUsualNeedsThreeEarlierTakes() {
        assertThat(run(wheeze, "--usual", usual).out()).contains("1 earlier take(s): too few");
        Result three = run(wheeze, "--usual", usual, "--usual", usual, "--usual", usual);
        assertThat(three.exit()).isZero();
        assertThat(three.out()).doesNotContain("too few").contains("no difference is no all-clear");
        JsonNode node = Json.parse(run(wheeze, "--usual", usual, "--json").out(), "output");
        assertThat(node.get("enough").asBoolean()).isFalse();
        assertThat(node.get("measures")).anyMatch(m -> m.get("measure").asText().equals("wheeze-share"));
    }

    @Test
    void thePictureIsWritten() throws Exception {
        Path picture = temp.resolve("comparison.png");
        assertThat(run(usual, wheeze, "--picture", picture.toString()).exit()).isZero();
        assertThat(ImageIO.read(picture.toFile()).getWidth()).isEqualTo(1000);
        byte[] recording = Files.readAllBytes(Path.of(usual));
        Result overIt = run(usual, wheeze, "--picture", usual);
        assertThat(overIt.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(overIt.err()).contains("this is not a picture");
        assertThat(Path.of(usual)).hasBinaryContent(recording);
        String nowhere = temp.resolve("no-folder").resolve("x.png").toString();
        Result failed = run(usual, wheeze, "--picture", nowhere);
        assertThat(failed.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(failed.err()).contains("a picture cannot be written there");
    }

    @Test
    void wrongUseIsRefusedWithASentence() throws Exception {
        assertThat(run(usual).exit()).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(run(usual).err()).contains("Name two recordings");
        assertThat(run(usual, wheeze, "--usual", usual).exit()).isEqualTo(Main.EXIT_BAD_USAGE);
        Result relation = run(usual, wheeze, "--as", "beside");
        assertThat(relation.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(relation.err()).contains("use one of before-after").doesNotContain("\tat ");
        Result missing = run(usual, temp.resolve("none.wav").toString());
        assertThat(missing.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(missing.err()).contains("there is no such file");
        Path empty = Files.createDirectory(temp.resolve("empty"));
        assertThat(run("--measure-repeatability", empty.toString()).err()).contains("SPRSound");
    }
}
