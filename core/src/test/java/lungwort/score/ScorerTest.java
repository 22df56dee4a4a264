package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The report on invented predictions: its shape, and that its figures are those of the metrics it is made of. */
class ScorerTest {
    private static final Scorer SCORER = new Scorer(200, 7);

    private static EventPrediction event(int i, EventLabel truth, EventLabel called, double p) {
        return new EventPrediction(
                "r" + i / 4, "p" + i / 8, i % 3 == 0 ? "A" : "B", truth, called.adventitious(), called, p, 1 - p);
    }

    private static List<EventPrediction> events(int count, EventLabel... labels) {
        Random random = new Random(count);
        List<EventPrediction> events = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            EventLabel truth = labels[random.nextInt(labels.length)];
            EventLabel called = random.nextInt(3) > 0 ? truth : labels[random.nextInt(labels.length)];
            double p = truth.continuous() ? 0.3 + 0.7 * random.nextDouble() : 0.8 * random.nextDouble();
            events.add(event(i, truth, called, p));
        }
        return events;
    }

    private static List<RecordingPrediction> recordings(int count) {
        Random random = new Random(count);
        RecordingLabel[] labels = RecordingLabel.values();
        List<RecordingPrediction> recordings = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            RecordingLabel truth = labels[random.nextInt(labels.length)];
            RecordingLabel called = random.nextBoolean() ? truth : labels[random.nextInt(labels.length)];
            recordings.add(new RecordingPrediction(
                    "r" + i,
                    "p" + i / 2,
                    "A",
                    truth,
                    RecordingVerdict.of(called),
                    called,
                    random.nextDouble(),
                    random.nextDouble(),
                    truth == RecordingLabel.POOR_QUALITY ? 1 : 0,
                    alone(random)));
        }
        return recordings;
    }

    private static AloneAnswer alone(Random random) {
        Suggestion suggestion = Suggestion.values()[random.nextInt(Suggestion.values().length)];
        return new AloneAnswer(
                random.nextDouble(),
                random.nextDouble(),
                random.nextDouble(),
                suggestion,
                suggestion == Suggestion.CANNOT_TELL);
    }

    private static ScoreReport sprsound() {
        List<EventPrediction> events = events(
                160,
                EventLabel.NORMAL,
                EventLabel.NORMAL,
                EventLabel.WHEEZE,
                EventLabel.FINE_CRACKLE,
                EventLabel.RHONCHUS);
        return SCORER.score(DatabaseKind.SPRSOUND, "inter", "test", events, recordings(40), 0);
    }

    private static ScoreReport icbhi() {
        return SCORER.score(
                DatabaseKind.ICBHI,
                "test",
                "test",
                events(120, EventLabel.NORMAL, EventLabel.WHEEZE, EventLabel.CRACKLE, EventLabel.WHEEZE_AND_CRACKLE),
                List.of(),
                3);
    }

    private static <V> V get(Map<String, V> figures, String name) {
        return Objects.requireNonNull(figures.get(name), name);
    }

    @Test
    void jsonHasTheAgreedShape() throws Exception {
        JsonNode json = ScoreJson.tree(sprsound());
        assertThat(json.path("database").asText()).isEqualTo("SPRSound");
        assertThat(json.path("split").asText()).isEqualTo("inter");
        assertThat(json.path("recordings").asInt()).isEqualTo(40);
        assertThat(json.path("events").asInt()).isEqualTo(160);
        assertThat(json.path("patients").asInt()).isEqualTo(20);
        for (String task : List.of("1-1", "1-2", "2-1", "2-2")) {
            for (String part : List.of("SE", "SP", "AS", "HS", "score")) {
                double value = json.at("/tasks/" + task + "/" + part).asDouble(-1);
                JsonNode interval = json.at("/ci95/tasks/" + task + "/" + part);
                assertThat(value).as(task + " " + part).isBetween(0.0, 1.0);
                assertThat(value)
                        .isBetween(interval.path(0).asDouble(), interval.path(1).asDouble());
            }
        }
        for (String area : List.of(
                "event/continuous",
                "event/discontinuous",
                "recording/continuous",
                "recording/discontinuous",
                "recording/poorQuality")) {
            assertThat(json.at("/auc/" + area).asDouble(-1)).as(area).isBetween(0.0, 1.0);
            assertThat(json.at("/ci95/auc/" + area)).as(area).hasSize(2);
        }
    }

    @Test
    void icbhiAnswersOneTaskAndLeavesTheChallengesOut() throws Exception {
        JsonNode json = ScoreJson.tree(icbhi());
        assertThat(json.path("tasks").fieldNames()).toIterable().containsExactly("icbhi-4");
        JsonNode task = json.at("/tasks/icbhi-4");
        assertThat(task.path("score").asDouble())
                .isEqualTo((task.path("SE").asDouble() + task.path("SP").asDouble()) / 2, within(1e-12));
        assertThat(json.path("leftOutRecordings").asInt()).isEqualTo(3);
        assertThat(json.at("/auc/recording").has("poorQuality")).isFalse();
        assertThat(json.at("/auc/recording/continuous").isNull()).isTrue();
    }

    @Test
    void figuresAreThoseOfTheMetrics() {
        ScoreReport report = sprsound();
        Confusion confusion = get(report.confusions(), "1-2");
        assertThat(confusion.total()).isEqualTo(160);
        TaskScore score = report.task("1-2").orElseThrow().value();
        assertThat(score.specificity()).isEqualTo(confusion.recall(0), within(1e-12));
        Confusion recordings = get(report.confusions(), "2-2");
        TaskScore five = report.task("2-2").orElseThrow().value();
        assertThat(five.specificity()).isEqualTo(recordings.recall(0), within(1e-12));
        int right = 0;
        int all = 0;
        for (int c = 1; c < 4; c++) {
            right += recordings.counts().get(c).get(c);
            all += recordings.counts().get(c).stream()
                    .mapToInt(Integer::intValue)
                    .sum();
        }
        assertThat(five.sensitivity()).isEqualTo((double) right / all, within(1e-12));
    }

    @Test
    void recordingsOfPoorQualityDoNotCountForTheAreasOfExtraSounds() {
        List<RecordingPrediction> recordings = new ArrayList<>(recordings(40));
        ScoreReport before = SCORER.score(DatabaseKind.SPRSOUND, "inter", "test", List.of(), recordings, 0);
        for (int i = 0; i < 10; i++) {
            recordings.add(new RecordingPrediction(
                    "poor" + i,
                    "p" + i,
                    "A",
                    RecordingLabel.POOR_QUALITY,
                    RecordingVerdict.NORMAL,
                    RecordingLabel.NORMAL,
                    1,
                    1,
                    0,
                    new AloneAnswer(1, 1, 0, Suggestion.BOTH, false)));
        }
        ScoreReport after = SCORER.score(DatabaseKind.SPRSOUND, "inter", "test", List.of(), recordings, 0);
        assertThat(get(after.recordingAuc(), "continuous")).isEqualTo(get(before.recordingAuc(), "continuous"));
        assertThat(get(before.recordingAuc(), "poorQuality").value()).isEqualTo(1);
        assertThat(get(after.recordingAuc(), "poorQuality").value()).isLessThan(1);
    }

    @Test
    void calibrationErrorsAreThoseOfTheReliabilityDiagrams() {
        ScoreReport report = sprsound();
        assertThat(report.reliability().keySet()).isEqualTo(report.calibration().keySet());
        assertThat(get(report.reliability(), "event.continuous").stream()
                        .mapToInt(Calibration.Bin::count)
                        .sum())
                .isEqualTo(160);
        // poor quality was stated with certainty and always right
        assertThat(get(report.calibration(), "recording.poorQuality")).isZero();
        assertThat(get(report.calibration(), "event.continuous")).isPositive();
    }

    @Test
    void eventsFoundWithoutHelpStandInTheReportWhereTheyWereSought() throws Exception {
        List<EventSpan> annotated = List.of(new EventSpan("a", 0, 1, "wheeze"), new EventSpan("b", 2, 3, "wheeze"));
        List<EventSpan> found = List.of(new EventSpan("a", 0.1, 1.1, "wheeze"), new EventSpan("c", 0, 1, "wheeze"));
        ScoreReport report = sprsound()
                .withDetection(DetectionFigures.byBothRules(
                        annotated, found, Map.of("a", "p1", "b", "p1", "c", "p2"), 100, 3));
        JsonNode json = ScoreJson.tree(report);
        // 2 annotated, 2 found, 1 matched: F = 1/2
        assertThat(json.at("/detection/collar/F").asDouble()).isEqualTo(0.5);
        assertThat(json.at("/detection/overlap/byKind/wheeze/matched").asInt()).isEqualTo(1);
        // resamples hold p1 twice (F = 2/3), both (1/2), or p2 twice (0)
        assertThat(json.at("/detection/collar/ci95/F/0").asDouble()).isZero();
        assertThat(json.at("/detection/collar/ci95/F/1").asDouble()).isEqualTo(2.0 / 3, within(1e-12));
        assertThat(ScoreText.of(report)).contains("Events found without help, matched by collar: onset within 0.2 s");
        assertThat(ScoreJson.tree(sprsound()).has("detection")).isFalse();
    }

    @Test
    void eventsFoundAreScoredWhereAnnotatorsMarkedSoundsAndThePublishedFigureStandsBeside() {
        CrossValidation.Result answers = new CrossValidation.Result(
                List.of(),
                recordings(40),
                List.of(new EventSpan("r1", 0, 1, "continuous")),
                List.of(new EventSpan("r1", 0.1, 1, "continuous")));
        ScoreReport report = SCORER.score(DatabaseKind.SPRSOUND, "inter", "test", answers, 0);
        assertThat(get(report.detection(), DetectionFigures.COLLAR).f().value()).isEqualTo(1);
        assertThat(ScoreText.of(report)).containsPattern("events found, F\\s+0.2000   2024 track");
        // ICBHI's marks are breath cycles, not sounds
        assertThat(SCORER.score(DatabaseKind.ICBHI, "test", "test", answers, 0).detection())
                .isEmpty();
    }

    @Test
    void devicesAreScoredApart() {
        ScoreReport report = icbhi();
        assertThat(report.devices())
                .extracting(ScoreReport.DeviceFigures::device)
                .containsExactly("A", "B");
        assertThat(report.devices().get(0).events() + report.devices().get(1).events())
                .isEqualTo(120);
    }

    @Test
    void theSameReportIsTheSameBytes() {
        assertThat(ScoreJson.text(ScoreJson.tree(sprsound()))).isEqualTo(ScoreJson.text(ScoreJson.tree(sprsound())));
        assertThat(ScoreText.of(sprsound())).isEqualTo(ScoreText.of(sprsound()));
    }

    @Test
    void whatElseWasLearntFromIsNamed() {
        Provenance provenance = new Provenance(
                "1.2.3",
                "17",
                "arm",
                new Provenance.Data("a".repeat(64), "b".repeat(64)),
                new Provenance.Data("c".repeat(64), "d".repeat(64)),
                new Provenance.Source("recipe", "e".repeat(64)),
                "none");
        JsonNode too = parsed(ScoreJson.text(sprsound(), provenance)).at("/madeWith/learntFromToo");
        assertThat(too.path("annotations").asText()).isEqualTo("c".repeat(64));
        assertThat(too.path("audio").asText()).isEqualTo("d".repeat(64));
        assertThat(ScoreText.of(sprsound(), provenance))
                .isEqualTo(
                        ScoreText.of(sprsound())
                                + "Made with Lungwort 1.2.3, Java 17 (arm). SHA-256 of the recipe eeeeeeeeeeeeeeee.., annotations aaaaaaaaaaaaaaaa.., audio bbbbbbbbbbbbbbbb.., learnt from too cccccccccccccccc.., dddddddddddddddd..; altered: none.\n");
    }

    private static JsonNode parsed(String json) {
        try {
            return new ObjectMapper().readTree(json);
        } catch (JsonProcessingException e) {
            throw new AssertionError(json, e);
        }
    }

    @Test
    void withoutItemsEveryFigureIsUndefinedAndNothingFails() {
        ScoreReport report = SCORER.score(DatabaseKind.SPRSOUND, "inter", "test", List.of(), List.of(), 0);
        assertThat(ScoreJson.tree(report).at("/tasks/1-1/score").isNull()).isTrue();
        assertThat(ScoreText.of(report)).contains("0 recordings, 0 events, 0 patients");
    }

    @Test
    void textSaysWhatWasLeftOutAndPutsPublishedFiguresBeside() {
        assertThat(ScoreText.of(icbhi()))
                .contains("LEFT OUT: 3 recordings of this split")
                .contains("only for orientation")
                .contains("seven senior physicians");
        assertThat(ScoreText.of(sprsound()))
                .contains("0.9039   CNN-transformer (2025); second-hand")
                .contains("official test sets (on this one)")
                .doesNotContain("LEFT OUT");
    }

    /** A fold of the training set is no official test set, whichever way it is asked for. */
    @ParameterizedTest
    @CsvSource({"inter, true", "intra, true", "train-cv, false", "train, false", "left-out, false"})
    void publishedFiguresStandBesideOnlyForAnOfficialTestSet(String split, boolean comparable) {
        ScoreReport report = SCORER.score(DatabaseKind.SPRSOUND, split, "test", List.of(), List.of(), 0);
        assertThat(report.comparable()).isEqualTo(comparable);
    }

    @ParameterizedTest
    @CsvSource({"test, true", "all, false", "train, false", "icbhi-cv, false", "left-out, false"})
    void andSoForBreathCycles(String split, boolean comparable) {
        ScoreReport report = SCORER.score(DatabaseKind.ICBHI, split, "test", List.of(), List.of(), 0);
        assertThat(report.comparable()).isEqualTo(comparable);
    }

    /** Whoever reads the JSON has only datasets/README.md to go by. Tasks and what an error of calibration is of are said there in words. */
    @Test
    void everyFieldOfTheJsonStandsInTheDocument() throws IOException {
        String document = Files.readString(Path.of("..", "datasets", "README.md"));
        String section = document.substring(
                document.indexOf("`score --json FILE`, one object"), document.indexOf("`score --answers DIR` writes"));
        Set<String> names = new TreeSet<>();
        names(ScoreJson.tree(sprsound()), names);
        names(ScoreJson.tree(icbhi()), names);
        assertThat(names).contains("leftOutRecordings", "noneStandsOut", "coverage", "threshold");
        assertThat(names)
                .filteredOn(name -> !name.matches("[12]-[12]|icbhi-4|(alone|event|recording)[.].*"))
                .allSatisfy(name -> assertThat(section).contains("`" + name + "`"));
    }

    private static void names(JsonNode node, Set<String> names) {
        node.fieldNames().forEachRemaining(names::add);
        node.forEach(inner -> names(inner, names));
    }
}
