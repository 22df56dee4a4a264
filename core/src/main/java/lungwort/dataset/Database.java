package lungwort.dataset;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import lungwort.BadInput;

/**
 * A public database as it was found in a folder.
 *
 * @param kind which one
 * @param folder the folder that was read
 * @param recordings all its recordings, sorted by split and id
 * @param warnings what is odd about it but does not stop the work, one sentence each
 */
public record Database(DatabaseKind kind, Path folder, List<AnnotatedRecording> recordings, List<String> warnings) {
    public Database {
        recordings = List.copyOf(recordings);
        warnings = List.copyOf(warnings);
    }

    /** The recordings of some splits, in order. */
    public List<AnnotatedRecording> recordings(Set<Split> splits) {
        return recordings.stream().filter(r -> splits.contains(r.split())).toList();
    }

    /**
     * The recordings that a split name asks for, with and without audio.
     *
     * @param splitName one of {@link DatabaseKind#splitNames()}, or {@code train} or {@code all}
     * @throws BadInput if this database has no such split or the folder holds none of it
     */
    public List<AnnotatedRecording> recordings(String splitName) {
        List<AnnotatedRecording> found = recordings(splits(splitName));
        if (found.isEmpty()) {
            throw BadInput.of(
                    "%s: there is no recording of the %s split '%s'; unpack that part of the download there.",
                    folder, kind.title(), splitName);
        }
        return found;
    }

    /** The names of the splits of which the folder holds something. */
    public List<String> splitsThere() {
        return kind.splitNames().stream()
                .filter(name -> !recordings(splits(name)).isEmpty())
                .toList();
    }

    /**
     * The recordings of a split whose audio is there. How many were left out is the difference to {@link #recordings(String)}; whoever scores must say it.
     *
     * @throws BadInput as {@link #recordings(String)}, or if there is no audio at all
     */
    public List<AnnotatedRecording> withAudio(String splitName) {
        List<AnnotatedRecording> found = recordings(splitName).stream()
                .filter(AnnotatedRecording::hasAudio)
                .toList();
        if (found.isEmpty()) {
            throw BadInput.of(
                    "%s: the annotations of the %s split '%s' are there, but none of its audio; unpack the audio beside them (layouts: datasets/README.md).",
                    folder, kind.title(), splitName);
        }
        return found;
    }

    private Set<Split> splits(String splitName) {
        return switch (splitName) {
            case "train", "train-cv" -> EnumSet.of(Split.TRAIN);
            case "icbhi-cv" -> only(Split.TRAIN, DatabaseKind.ICBHI, splitName);
            case "inter" -> only(Split.INTER, DatabaseKind.SPRSOUND, splitName);
            case "intra" -> only(Split.INTRA, DatabaseKind.SPRSOUND, splitName);
            case "test" -> only(Split.TEST, DatabaseKind.ICBHI, splitName);
            case "all" -> EnumSet.allOf(Split.class);
            default -> throw noSuchSplit(splitName);
        };
    }

    private Set<Split> only(Split split, DatabaseKind owner, String splitName) {
        if (kind != owner) {
            throw noSuchSplit(splitName);
        }
        return EnumSet.of(split);
    }

    private BadInput noSuchSplit(String splitName) {
        return BadInput.of(
                "%s has no split '%s'; use one of %s.", kind.title(), splitName, String.join(", ", kind.splitNames()));
    }

    /**
     * SHA-256 over names, sizes and annotations, independent of where the folder lies; for model manifests.
     *
     * @param used the recordings to cover, for example {@code recordings("train")}
     */
    public static String digest(List<AnnotatedRecording> used) {
        return DatabaseDigest.of(used);
    }

    /**
     * SHA-256 over every byte of the audio: of the lines that {@code sha256sum} prints for the files inside their folder, sorted by file name.
     *
     * @param used recordings that have audio
     * @throws lungwort.BadInput if a file cannot be read
     */
    public static String audioDigest(List<AnnotatedRecording> used) {
        return DatabaseDigest.ofAudio(used);
    }

    /** The patients of some recordings, sorted. */
    public static Set<String> patients(List<AnnotatedRecording> recordings) {
        Set<String> patients = new TreeSet<>();
        recordings.forEach(r -> patients.add(r.patient()));
        return patients;
    }

    /** Number of annotated events in some recordings. */
    public static int events(List<AnnotatedRecording> recordings) {
        return recordings.stream().mapToInt(r -> r.events().size()).sum();
    }
}
