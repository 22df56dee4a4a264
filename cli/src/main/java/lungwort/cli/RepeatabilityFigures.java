package lungwort.cli;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.stream.Stream;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.compare.Measure;
import lungwort.compare.Repeatability;
import lungwort.compare.RepeatabilityStudy;
import lungwort.compare.TakeMeasures;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Databases;
import lungwort.examine.Examination;
import lungwort.json.Json;
import lungwort.score.Progress;

/** Makes the contents of {@code repeatability.json} from SPRSound's training set. */
final class RepeatabilityFigures {
    private static final String ABOUT =
            "What two takes of the same thing differ by: the difference that 95 in 100 pairs stay within, and the within-person standard deviation, on SPRSound's 2022"
                    + " training set (children, one kind of stethoscope). sameSite: consecutive recordings of one site of one child, same age and label; the database does not"
                    + " say whether they are of one day. leftRight: the same height on both sides of one child within one sitting, both labelled normal; that p1 and p2 are left,"
                    + " p3 and p4 right is from memory [M], and fits the heart being louder there.";

    private RepeatabilityFigures() {}

    /** @throws lungwort.BadInput if the folder does not hold SPRSound's training set with its audio */
    static String measure(Path folder, Function<Recording, Examination> examine, Progress progress) {
        List<AnnotatedRecording> recordings =
                Databases.open(folder, DatabaseKind.SPRSOUND).withAudio("train-cv");
        List<RepeatabilityStudy.Pair> sameSite = RepeatabilityStudy.sameSite(recordings);
        List<RepeatabilityStudy.Pair> leftRight = RepeatabilityStudy.leftRight(recordings);
        Map<String, String> models = new ConcurrentHashMap<>();
        Map<String, TakeMeasures> measured = measureAll(
                sameSite,
                leftRight,
                recording -> {
                    Examination examination = examine.apply(recording);
                    models.put(examination.model(), "");
                    return TakeMeasures.ofAll(recording, examination);
                },
                progress);
        Function<AnnotatedRecording, TakeMeasures> known = r -> Objects.requireNonNull(measured.get(r.id()));
        Map<Measure, Repeatability.Limit> same = RepeatabilityStudy.limits(sameSite, known);
        Map<Measure, Repeatability.Limit> sides = RepeatabilityStudy.limits(leftRight, known);
        String made = "lungwort compare --measure-repeatability DATABASES; SPRSound 2022 training set, %s; model %s"
                .formatted(Database.digest(recordings), String.join(", ", models.keySet()));
        JsonNode node = RepeatabilityStudy.toJson(new Repeatability(made, same, sides), ABOUT);
        return Json.pretty(node);
    }

    private static Map<String, TakeMeasures> measureAll(
            List<RepeatabilityStudy.Pair> sameSite,
            List<RepeatabilityStudy.Pair> leftRight,
            Function<Recording, TakeMeasures> measure,
            Progress progress) {
        Map<String, Path> files = new LinkedHashMap<>();
        Stream.concat(sameSite.stream(), leftRight.stream())
                .flatMap(pair -> Stream.of(pair.first(), pair.second()))
                .forEach(r -> files.put(r.id(), r.audio()));
        Map<String, TakeMeasures> measured = new ConcurrentHashMap<>();
        files.entrySet().parallelStream().forEach(e -> {
            measured.put(e.getKey(), measure.apply(RecordingReader.read(e.getValue())));
            progress.at("measuring", measured.size(), files.size());
        });
        return measured;
    }
}
