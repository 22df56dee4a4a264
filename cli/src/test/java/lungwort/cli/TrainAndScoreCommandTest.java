package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import lungwort.LungwortVersion;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Databases;
import lungwort.dataset.EventLabel;
import lungwort.json.Json;
import lungwort.score.Roc;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** From the door to the figures on a small database of breath cycles, half of them with a tone. */
class TrainAndScoreCommandTest {
    private static final int RATE_HZ = 4000;
    private static final String LEARNER =
            "{\"learners\": [{\"kind\": \"linear-softmax\", \"ridge\": 10, \"iterations\": 20}]}";

    @TempDir
    Path parent;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    @BeforeEach
    void eightPeopleOnTheTrainingSideAndTwoOnTheOther() throws IOException {
        Path folder = Files.createDirectories(parent.resolve("ICBHI_final_database"));
        StringBuilder split = new StringBuilder();
        for (int person = 0; person < 10; person++) {
            String id = "9%02d_1b1_Al_sc_Meditron".formatted(person);
            split.append(id).append('\t').append(person < 8 ? "train" : "test").append('\n');
            Files.writeString(folder.resolve(id + ".txt"), "0\t1.5\t0\t0\n1.5\t3\t0\t1\n3\t4.5\t0\t0\n4.5\t6\t0\t1\n");
            WavWriter.write(folder.resolve(id + ".wav"), cycles(person), WavWriter.Encoding.PCM_16);
        }
        Files.writeString(folder.resolve("ICBHI_challenge_train_test.txt"), split);
        Files.writeString(
                parent.resolve("recipe.json"),
                "{\"name\": \"small\", \"innerFolds\": 2, \"outerFolds\": 2, \"segment\": %s, \"context\": %s, \"window\": %s, \"recording\": %s, \"takes\": %s}"
                        .formatted(LEARNER, LEARNER, LEARNER, LEARNER, LEARNER));
    }

    private static Recording cycles(int seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] x = new double[6 * RATE_HZ];
        for (int i = 0; i < x.length; i++) {
            double t = (double) i / RATE_HZ;
            boolean tone = (int) (t / 1.5) % 2 == 1;
            x[i] = 0.02 * random.nextGaussian() + (tone ? 0.15 * Math.sin(2 * Math.PI * (300 + 10 * seed) * t) : 0);
        }
        return new Recording(x, RATE_HZ, "cycles");
    }

    private int run(String... args) {
        CommandLine line = Main.commandLine();
        line.setOut(new PrintWriter(out, true));
        line.setErr(new PrintWriter(err, true));
        return line.execute(args);
    }

    private String path(String name) {
        return parent.resolve(name).toString();
    }

    private int train() {
        return train("m.lungwort", "--split", "train", "--cache", path("kept"));
    }

    /** The small recipe. */
    private int train(String to, String... how) {
        return run(more(
                new String[] {
                    "train", "--recipe", path("recipe.json"), "--database", parent.toString(), "--out", path(to)
                },
                how));
    }

    private int score(String... how) {
        return run(more(new String[] {"score", "--database", parent.toString()}, how));
    }

    private static String[] more(String[] first, String... rest) {
        return Stream.of(first, rest).flatMap(Stream::of).toArray(String[]::new);
    }

    @Test
    void aModelOfBreathCyclesIsTrainedAndScoredOnTheOtherSide() throws IOException {
        assertThat(train()).as(err.toString()).isZero();
        assertThat(out.toString()).contains("trained by recipe small on 8 recordings of 8 patients");
        assertThat(score("--model", path("m.lungwort"), "--split", "test", "--json", path("test.json")))
                .as(err.toString())
                .isZero();
        JsonNode json = Json.parse(Files.readString(parent.resolve("test.json")), "test.json");
        assertThat(json.path("model").asText()).isEqualTo("model small");
        assertThat(json.path("events").asInt()).isEqualTo(8);
        // loud tones in half of the cycles: judged as the marked segments that the model learnt
        assertThat(json.at("/tasks/icbhi-4/score").asDouble()).isGreaterThan(0.8);
    }

    @Test
    void aModelThatLearntFromWhatIsScoredIsCalledSo() {
        assertThat(train()).isZero();
        assertThat(score("--model", path("m.lungwort"), "--split", "train")).isZero();
        assertThat(out.toString()).contains("model small, WHICH LEARNT FROM THESE RECORDINGS");
    }

    private int trainWithout(String fold) {
        return train("m.lungwort", "--split", "train", "--leave-out", fold);
    }

    /** The model of one fold answers to that fold as cross-validation does, word for word; then it can be tried there on altered sound, too. */
    @Test
    void aModelThatLeftAFoldOutAnswersToItAsCrossValidationDoes() throws IOException {
        scored("cv.json", "--recipe", path("recipe.json"), "--split", "icbhi-cv", "--answers", path("cv"));
        List<CSVRecord> all = rows("cv/recordings.csv");
        List<String> seen = new ArrayList<>();
        for (String fold : List.of("1", "2")) {
            out.getBuffer().setLength(0);
            assertThat(trainWithout(fold)).as(err.toString()).isZero();
            assertThat(out.toString()).contains("on 4 recordings of 4 patients");
            String[] how = {"--model", path("m.lungwort"), "--split", "left-out"};
            JsonNode plain = scored("left.json", more(how, "--answers", path("left")));
            assertThat(plain.path("model").asText()).isEqualTo("model small without fold " + fold);
            List<CSVRecord> held = rows("left/recordings.csv");
            assertThat(held).hasSize(4);
            for (CSVRecord answer : held) {
                seen.add(answer.get("recording"));
                assertThat(all)
                        .filteredOn(r -> r.get("recording").equals(answer.get("recording")))
                        .extracting(CSVRecord::toList)
                        .containsExactly(answer.toList());
            }
            JsonNode altered = scored("noisy.json", more(how, "--altered", "noise10"));
            assertThat(altered.at("/madeWith/altered").asText()).isEqualTo("noise10");
            assertThat(altered.path("recordings").asInt()).isEqualTo(4);
        }
        assertThat(seen).hasSize(8).doesNotHaveDuplicates();
    }

    @Test
    void whatAModelHasNotSeenIsAskedOnlyOfOneThatLeftItOut() throws IOException {
        assertThat(score("--split", "left-out")).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(err.toString()).contains("--split left-out needs a --model of train --leave-out");
        assertThat(train()).isZero();
        String[] score = {"score", "--database", parent.toString(), "--split", "left-out", "--model", path("m.lungwort")
        };
        assertThat(run(score)).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("This model learnt from a whole training set");
        assertThat(trainWithout("3")).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("There is no fold 3; the recipe has folds 1 to 2.");
        assertThat(trainWithout("2")).isZero();
        // in five of eight, so that some of those learnt from are among them
        for (int person = 0; person < 5; person++) {
            Files.writeString(
                    parent.resolve("ICBHI_final_database/9%02d_1b1_Al_sc_Meditron.txt".formatted(person)),
                    "0\t1.5\t0\t0\n1.5\t3\t1\t1\n");
        }
        assertThat(run(score)).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("made of other recordings than these");
    }

    @Test
    void aRecipeIsCrossValidatedOnBreathCyclesAndWhatWasMeasuredIsKept() throws IOException {
        String[] command = {
            "score",
            "--recipe",
            path("recipe.json"),
            "--database",
            parent.toString(),
            "--split",
            "icbhi-cv",
            "--cache",
            path("kept")
        };
        assertThat(run(command)).as(err.toString()).isZero();
        String first = out.toString();
        assertThat(first)
                .contains("ICBHI 2017, split icbhi-cv, recipe small")
                .contains("8 recordings, 32 events, 8 patients");
        try (Stream<Path> kept = Files.list(parent.resolve("kept"))) {
            assertThat(kept).hasSize(8);
        }
        assertThat(run(command)).isZero();
        assertThat(out.toString()).isEqualTo(first + first);
    }

    private JsonNode scored(String json, String... more) throws IOException {
        List<String> command = new ArrayList<>(List.of("score", "--database", parent.toString(), "--json", path(json)));
        command.addAll(List.of(more));
        assertThat(run(command.toArray(String[]::new))).as(err.toString()).isZero();
        return Json.parse(Files.readString(parent.resolve(json)), json);
    }

    private static String sha256(Path file) throws Exception {
        return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file)));
    }

    @Test
    void figuresNameWhatTheyWereMadeWithAndTwoRunsWriteTheSameBytes() throws Exception {
        assertThat(train()).isZero();
        String[] how = {"--model", path("m.lungwort"), "--split", "test", "--altered", "lowpass1000"};
        JsonNode made = scored("first.json", how).path("madeWith");
        String text = out.toString();
        scored("second.json", how);
        assertThat(parent.resolve("second.json")).hasSameBinaryContentAs(parent.resolve("first.json"));
        assertThat(made.path("lungwort").asText()).isEqualTo(LungwortVersion.CURRENT);
        assertThat(made.path("java").asText()).isEqualTo(Runtime.version().toString());
        assertThat(made.path("model").asText()).isEqualTo(sha256(parent.resolve("m.lungwort")));
        assertThat(made.path("altered").asText()).isEqualTo("lowpass1000");
        List<AnnotatedRecording> recordings =
                Databases.open(parent, DatabaseKind.ICBHI).recordings("test");
        assertThat(made.at("/scored/annotations").asText()).isEqualTo(Database.digest(recordings));
        assertThat(made.at("/scored/audio").asText()).isEqualTo(Database.audioDigest(recordings));
        assertThat(text)
                .contains("Made with Lungwort " + LungwortVersion.CURRENT + ", Java " + Runtime.version())
                .contains("SHA-256 of the model " + made.path("model").asText().substring(0, 16))
                .contains(
                        "annotations " + made.at("/scored/annotations").asText().substring(0, 16))
                .contains("audio " + made.at("/scored/audio").asText().substring(0, 16))
                .endsWith("altered: lowpass1000.\n");
    }

    @Test
    void whereOneRecordingIsAnotherTheFiguresSaySo() throws Exception {
        assertThat(train()).isZero();
        String[] how = {"--model", path("m.lungwort"), "--split", "test"};
        JsonNode before = scored("before.json", how).path("madeWith");
        // as long as the one before, so that names, sizes and annotations are the same
        WavWriter.write(
                parent.resolve("ICBHI_final_database/908_1b1_Al_sc_Meditron.wav"),
                cycles(77),
                WavWriter.Encoding.PCM_16);
        JsonNode after = scored("after.json", how).path("madeWith");
        assertThat(after.at("/scored/audio")).isNotEqualTo(before.at("/scored/audio"));
        assertThat(after.at("/scored/annotations")).isEqualTo(before.at("/scored/annotations"));
        assertThat(after.path("model")).isEqualTo(before.path("model"));
    }

    @Test
    void aCrossValidationNamesItsRecipesText() throws Exception {
        JsonNode made = scored("cv.json", "--recipe", path("recipe.json"), "--split", "icbhi-cv")
                .path("madeWith");
        assertThat(made.path("recipe").asText()).isEqualTo(sha256(parent.resolve("recipe.json")));
        assertThat(made.has("model")).isFalse();
        assertThat(made.has("learntFromToo")).isFalse();
        assertThat(made.path("altered").asText()).isEqualTo("none");
        assertThat(out.toString())
                .contains(
                        "SHA-256 of the recipe " + made.path("recipe").asText().substring(0, 16));
    }

    @Test
    void theFiguresCanBeComputedAgainFromTheAnswers() throws Exception {
        assertThat(train()).isZero();
        JsonNode figures =
                scored("test.json", "--model", path("m.lungwort"), "--split", "test", "--answers", path("answers"));
        List<CSVRecord> events = rows("answers/events.csv");
        boolean[] wheeze = new boolean[events.size()];
        double[] probability = new double[events.size()];
        for (int i = 0; i < wheeze.length; i++) {
            wheeze[i] = EventLabel.valueOf(events.get(i).get("label")).continuous();
            probability[i] = Double.parseDouble(events.get(i).get("continuous"));
        }
        assertThat(events).hasSize(figures.path("events").asInt());
        assertThat(Roc.auc(probability, wheeze))
                .isEqualTo(figures.at("/auc/event/continuous").asDouble());
        List<CSVRecord> recordings = rows("answers/recordings.csv");
        assertThat(recordings).hasSize(figures.path("recordings").asInt());
        assertThat(recordings).extracting(r -> r.get("recording")).isSorted();
        assertThat(events.get(1).get("event")).isEqualTo("2");
        columnsStandInTheDocument(recordings.get(0), "recordings");
        columnsStandInTheDocument(events.get(0), "events");
    }

    /** In a row of the table of columns that names this table, or both. */
    private static void columnsStandInTheDocument(CSVRecord row, String table) throws IOException {
        List<String> document = Files.readAllLines(Path.of("..", "datasets", "README.md"), StandardCharsets.UTF_8);
        assertThat(row.getParser().getHeaderNames())
                .hasSizeGreaterThan(5)
                .allSatisfy(column -> assertThat(document)
                        .anyMatch(line ->
                                line.matches("\\| [^|]*`" + column + "`[^|]*\\| [^|]*(both|" + table + ")[^|]*\\|.*")));
    }

    private List<CSVRecord> rows(String file) throws IOException {
        try (CSVParser parser = CSVParser.parse(
                parent.resolve(file),
                StandardCharsets.UTF_8,
                CSVFormat.RFC4180
                        .builder()
                        .setHeader()
                        .setSkipHeaderRecord(true)
                        .get())) {
            return parser.getRecords();
        }
    }

    @Test
    void whereNoAnswersCanBeWrittenThatIsSaidFirst() throws IOException {
        assertThat(train()).isZero();
        Path taken = Files.writeString(parent.resolve("taken"), "");
        assertThat(score("--model", path("m.lungwort"), "--split", "test", "--answers", taken.toString()))
                .isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("taken: the answers cannot be written there");
        assertThat(taken).isEmptyFile();
    }

    @Test
    void withoutADatabaseNoFolderForAnswersIsMade() {
        Path answers = parent.resolve("answers-of-none");
        assertThat(run(
                        "score",
                        "--database",
                        parent.resolve("nowhere").toString(),
                        "--split",
                        "inter",
                        "--answers",
                        answers.toString()))
                .isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(answers).doesNotExist();
    }

    @Test
    void everyAlterationIsNamedWhereOneIsNotKnown() throws IOException {
        assertThat(train()).isZero();
        String[] score = {"score", "--model", path("m.lungwort"), "--database", parent.toString(), "--split", "test"};
        assertThat(run(more(score, "--altered", "telephone"))).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("There is no alteration 'telephone'", "phone", "opus16, aac32.");
    }

    /** A slip costs no recipe: what is no file of scores, and no model, is not written over. */
    /** Permissions do not tell of a folder in which no file can be made: whoever trains for an hour is told before it. */
    @Test
    void whereNoModelCanBeWrittenThatIsSaidFirst() {
        Path nowhere = Path.of("/proc/m.lungwort");
        Assumptions.assumeTrue(Files.isWritable(Path.of("/proc")), "there is no folder here that only seems writable");

        assertThat(run(
                        "train",
                        "--recipe",
                        path("recipe.json"),
                        "--database",
                        path("none"),
                        "--out",
                        nowhere.toString()))
                .isEqualTo(Main.EXIT_BAD_INPUT);

        assertThat(err.toString()).startsWith("lungwort: /proc/m.lungwort: ").contains("cannot be written there");
    }

    @Test
    void tryingOutWhereToWriteLeavesNothingBehind() throws IOException {
        assertThat(run(
                        "train",
                        "--recipe",
                        path("recipe.json"),
                        "--database",
                        path("none"),
                        "--out",
                        path("m.lungwort")))
                .isEqualTo(Main.EXIT_BAD_INPUT);
        try (Stream<Path> left = Files.list(parent)) {
            assertThat(left)
                    .extracting(p -> p.getFileName().toString())
                    .containsExactlyInAnyOrder("ICBHI_final_database", "recipe.json");
        }
    }

    /** Of a model that left a fold out the way on is known. */
    @Test
    void whereTheTestSideIsMissingWhatCanBeScoredIsSaid() throws IOException {
        String list = Files.readString(parent.resolve("ICBHI_final_database/ICBHI_challenge_train_test.txt"));
        assertThat(trainWithout("1")).as(err.toString()).isZero();
        assertThat(train("whole.lungwort", "--split", "train")).isZero();
        Files.writeString(
                parent.resolve("ICBHI_final_database/ICBHI_challenge_train_test.txt"), list.replace("test", "train"));

        assertThat(score("--model", path("m.lungwort"))).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString())
                .contains("holds nothing of the split 'test'; " + path("m.lungwort")
                        + " has not seen fold 1 of its training set: add --split left-out to score it on that.");
        err.getBuffer().setLength(0);
        assertThat(score("--model", path("whole.lungwort"))).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString())
                .contains(
                        "holds nothing of the split 'test', on which a model is scored where no --split is given, but of train")
                .contains("unpack the test set there, or name a split.");
    }

    @Test
    void aRecipeIsNotWrittenOver() throws IOException {
        String recipe = Files.readString(parent.resolve("recipe.json"));
        assertThat(train("recipe.json", "--split", "train")).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("recipe.json: this is not a model");
        assertThat(score("--recipe", path("recipe.json"), "--split", "icbhi-cv", "--json", path("recipe.json")))
                .isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("recipe.json: this is not a file of scores");
        assertThat(parent.resolve("recipe.json")).hasContent(recipe);
    }

    /** "train" is ICBHI's; where that is not there, nothing else is learnt from in its place. */
    @Test
    void icbhisTrainingSideIsNotLearntFromWhereItIsNot() throws IOException {
        Path other = Files.createDirectories(parent.resolve("other/BioCAS2022/train2022_json"));
        int exit = run(
                "train",
                "--recipe",
                path("recipe.json"),
                "--database",
                parent.resolve("other").toString(),
                "--split",
                "train",
                "--out",
                path("m.lungwort"));
        assertThat(exit).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("ICBHI 2017 was not found there");
        assertThat(other).isEmptyDirectory();
    }

    @Test
    void whatCannotBeAskedIsSaid() {
        assertThat(score("--split", "icbhi-cv", "--altered", "phone")).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(err.toString()).contains("--altered is for a model");
        assertThat(score("--model", path("m.lungwort"), "--split", "icbhi-cv")).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(err.toString()).contains("icbhi-cv takes --recipe, not --model");
        assertThat(train("m.lungwort", "--split", "test")).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(err.toString()).contains("train-cv (SPRSound) or train (ICBHI), not test");
        assertThat(train("m")).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(err.toString()).contains("the split 'train-cv' is SPRSound's");
    }
}
