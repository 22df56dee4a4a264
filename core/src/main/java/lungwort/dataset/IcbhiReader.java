package lungwort.dataset;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import lungwort.BadInput;

/** Reads the ICBHI 2017 database (Rocha et al., Physiol Meas 2019): a text file of breath cycles beside each WAV file. */
final class IcbhiReader {
    /** patient_index_site_mode_device, for example {@code 101_1b1_Al_sc_Meditron}. */
    static final Pattern NAME = Pattern.compile("(\\d{3})_([0-9a-z]+)_([A-Z][a-z])_(sc|mc)_([A-Za-z0-9]+)");

    private final Path root;
    private final List<AnnotatedRecording> recordings = new ArrayList<>();
    private final Warnings warnings = new Warnings();

    private IcbhiReader(Path root) {
        this.root = root;
    }

    static boolean looksLike(Path folder) {
        return Folders.files(folder, ".txt").stream()
                .anyMatch(file -> NAME.matcher(Folders.stem(file)).matches());
    }

    static Database read(Path root) {
        IcbhiReader reader = new IcbhiReader(root);
        reader.readAll();
        reader.requireAnnotationsForAudio();
        reader.warnOfSharedPatients();
        DatabaseCounts.warn(DatabaseKind.ICBHI, reader.recordings, reader.warnings);
        SameSound.warn(reader.recordings, reader.warnings);
        return new Database(DatabaseKind.ICBHI, root, reader.recordings, reader.warnings.sentences());
    }

    private void readAll() {
        IcbhiSplit split = IcbhiSplit.read(root);
        Map<String, Double> ages = IcbhiAges.read(root, warnings);
        Map<String, Path> audio = Folders.audio(root);
        for (Path txt : Folders.files(root, ".txt")) {
            Matcher name = NAME.matcher(Folders.stem(txt));
            if (name.matches()) {
                recordings.add(readOne(txt, name, audio, split, ages));
            }
        }
    }

    private AnnotatedRecording readOne(
            Path txt, Matcher name, Map<String, Path> audioById, IcbhiSplit split, Map<String, Double> ages) {
        String id = Folders.stem(txt);
        AudioFile audio = AudioFile.at(audioById.getOrDefault(id, root.resolve(id + ".wav")));
        List<AnnotatedEvent> cycles =
                EventChecks.withinAudio(txt.toString(), IcbhiCycles.read(txt), audio.durationSeconds(), warnings);
        Double age = ages.get(name.group(1));
        return new AnnotatedRecording(
                id,
                audio.path(),
                audio.bytes(),
                audio.durationSeconds(),
                name.group(1),
                name.group(3),
                age == null ? OptionalDouble.empty() : OptionalDouble.of(age),
                name.group(5),
                split.of(txt, id),
                cycles,
                EventChecks.label(cycles));
    }

    private void requireAnnotationsForAudio() {
        Set<String> annotated =
                Folders.files(root, ".txt").stream().map(Folders::stem).collect(Collectors.toSet());
        for (Path wav : Folders.files(root, ".wav")) {
            if (!annotated.contains(Folders.stem(wav))) {
                throw BadInput.of(
                        "%s: its annotation %s.txt is missing; unpack the download again.", wav, Folders.stem(wav));
            }
        }
    }

    private void warnOfSharedPatients() {
        Set<String> train = new HashSet<>(Database.patients(of(Split.TRAIN)));
        Set<String> both = new TreeSet<>(Database.patients(of(Split.TEST)));
        both.retainAll(train);
        if (!both.isEmpty()) {
            warnings.add(
                    "The official split is not quite by patient: %s stand on both sides (156 and 218 do so in the official release)."
                            .formatted(String.join(", ", both)));
        }
    }

    private List<AnnotatedRecording> of(Split split) {
        return recordings.stream().filter(r -> r.split() == split).toList();
    }
}
