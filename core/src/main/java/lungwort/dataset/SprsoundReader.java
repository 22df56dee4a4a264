package lungwort.dataset;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import lungwort.BadInput;

/** Reads SPRSound as its 2022 release lays it out: a WAV and a JSON file for each recording. */
final class SprsoundReader {
    private final Path root;
    private final List<AnnotatedRecording> recordings = new ArrayList<>();
    private final Warnings warnings = new Warnings();

    private SprsoundReader(Path root) {
        this.root = root;
    }

    static boolean looksLike(Path folder) {
        return SprsoundLayout.PARTS.stream().anyMatch(part -> Files.isDirectory(folder.resolve(part.annotations())));
    }

    static Database read(Path root) {
        SprsoundReader reader = new SprsoundReader(root);
        SprsoundLayout.PARTS.forEach(reader::readPart);
        reader.requireAnnotationsForAudio();
        DatabaseCounts.warn(DatabaseKind.SPRSOUND, reader.recordings, reader.warnings);
        SameSound.warn(reader.recordings, reader.warnings);
        return new Database(DatabaseKind.SPRSOUND, root, reader.recordings, reader.warnings.sentences());
    }

    private void readPart(SprsoundLayout.Part part) {
        Path folder = root.resolve(part.annotations());
        if (!Files.isDirectory(folder)) {
            return;
        }
        Map<String, Path> audio = Folders.audio(root.resolve(part.audio()));
        List<AnnotatedRecording> found = new ArrayList<>();
        for (Path json : Folders.files(folder, ".json")) {
            found.add(readOne(part, json, audio));
        }
        requireAllAudioOrNone(part, found);
        recordings.addAll(found);
    }

    /** Annotations alone are a folder not yet unpacked; some audio without the rest is a broken one. */
    private void requireAllAudioOrNone(SprsoundLayout.Part part, List<AnnotatedRecording> found) {
        List<AnnotatedRecording> silent =
                found.stream().filter(r -> !r.hasAudio()).toList();
        if (!silent.isEmpty() && silent.size() < found.size()) {
            throw BadInput.of(
                    "%s: the audio of %d of %d recordings is missing (first: %s); unpack the download again.",
                    root.resolve(part.audio()),
                    silent.size(),
                    found.size(),
                    silent.get(0).audio().getFileName());
        }
    }

    private AnnotatedRecording readOne(SprsoundLayout.Part part, Path json, Map<String, Path> audioById) {
        String id = Folders.stem(json);
        String[] fields = id.split("_", -1);
        if (fields.length != 5) {
            throw BadInput.of(
                    "%s: the file name is not patient_age_sex_site_number as in the SPRSound release; rename it or take it away.",
                    json);
        }
        AudioFile audio = AudioFile.at(
                audioById.getOrDefault(id, root.resolve(part.audio()).resolve(id + ".wav")));
        SprsoundAnnotation annotation = SprsoundAnnotation.read(json);
        List<AnnotatedEvent> events =
                EventChecks.withinAudio(json.toString(), annotation.events(), audio.durationSeconds(), warnings);
        warnings.countIf(
                annotation.label() != whatEventsSay(annotation),
                "recordings whose label does not follow from their events",
                id);
        return new AnnotatedRecording(
                id,
                audio.path(),
                audio.bytes(),
                audio.durationSeconds(),
                fields[0],
                fields[3],
                age(fields[1]),
                SprsoundLayout.DEVICE,
                part.split(),
                events,
                annotation.label());
    }

    /** Recordings of poor quality, and only these, have no event in the training set. */
    private static RecordingLabel whatEventsSay(SprsoundAnnotation annotation) {
        return annotation.events().isEmpty() ? RecordingLabel.POOR_QUALITY : EventChecks.label(annotation.events());
    }

    private static OptionalDouble age(String field) {
        try {
            double years = Double.parseDouble(field);
            return years >= 0 && years < 130 ? OptionalDouble.of(years) : OptionalDouble.empty();
        } catch (NumberFormatException e) {
            return OptionalDouble.empty();
        }
    }

    /** Audio without annotation means a part of the download is missing; both halves of the test set share one audio folder. */
    private void requireAnnotationsForAudio() {
        Set<String> annotated = new HashSet<>();
        recordings.forEach(r -> annotated.add(r.id()));
        requireAnnotations(SprsoundLayout.TRAIN, annotated);
        if (Files.isDirectory(root.resolve(SprsoundLayout.INTER.annotations()))
                && Files.isDirectory(root.resolve(SprsoundLayout.INTRA.annotations()))) {
            requireAnnotations(SprsoundLayout.INTER, annotated);
        }
    }

    private void requireAnnotations(SprsoundLayout.Part part, Set<String> annotated) {
        Path folder = root.resolve(part.audio());
        if (!Files.isDirectory(folder)) {
            return;
        }
        for (Path wav : Folders.files(folder, ".wav")) {
            if (!annotated.contains(Folders.stem(wav))) {
                throw BadInput.of(
                        "%s: its annotation %s.json is missing from %s; unpack the download again.",
                        wav, Folders.stem(wav), root.resolve(part.annotations()));
            }
        }
    }
}
