package lungwort.dataset;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * What a complete download holds, and how a folder compares.
 *
 * <p>Sources: SPRSound, Zhang et al., IEEE TBioCAS 2022 (official split); ICBHI 2017, Rocha et al., Physiol Meas 2019.
 *
 * @param part for people, for example {@code train}
 * @param what what was counted, for example {@code recordings}
 * @param found in the folder
 * @param expected in the complete release
 */
public record DatabaseCounts(String part, String what, int found, int expected) {
    /** True if as many were found as the release holds. */
    public boolean agrees() {
        return found == expected;
    }

    /** All counts that are known of a database, for the parts of it that are in the folder. */
    public static List<DatabaseCounts> of(DatabaseKind kind, List<AnnotatedRecording> recordings) {
        return switch (kind) {
            case SPRSOUND -> sprsound(recordings);
            case ICBHI -> icbhi(recordings);
        };
    }

    private static List<DatabaseCounts> sprsound(List<AnnotatedRecording> recordings) {
        Map<Split, int[]> expected = new LinkedHashMap<>();
        expected.put(Split.TRAIN, new int[] {1949, 251, 6656});
        expected.put(Split.INTER, new int[] {355, 41, 1429});
        expected.put(Split.INTRA, new int[] {379, 162, 1004});
        List<DatabaseCounts> counts = new ArrayList<>();
        expected.forEach((split, numbers) -> {
            List<AnnotatedRecording> part = only(recordings, split);
            if (!part.isEmpty()) {
                counts.add(new DatabaseCounts(split.id(), "recordings", part.size(), numbers[0]));
                counts.add(new DatabaseCounts(
                        split.id(), "patients", Database.patients(part).size(), numbers[1]));
                counts.add(new DatabaseCounts(split.id(), "events", Database.events(part), numbers[2]));
            }
        });
        return counts;
    }

    private static List<DatabaseCounts> icbhi(List<AnnotatedRecording> recordings) {
        Map<CycleClass, Integer> cycles = new LinkedHashMap<>();
        recordings.forEach(r -> r.events().forEach(e -> cycles.merge(CycleClass.of(e.label()), 1, Integer::sum)));
        List<DatabaseCounts> counts = new ArrayList<>();
        counts.add(new DatabaseCounts("all", "recordings", recordings.size(), 920));
        counts.add(new DatabaseCounts(
                "all", "patients", Database.patients(recordings).size(), 126));
        counts.add(new DatabaseCounts(
                "train", "recordings", only(recordings, Split.TRAIN).size(), 539));
        counts.add(new DatabaseCounts(
                "test", "recordings", only(recordings, Split.TEST).size(), 381));
        counts.add(new DatabaseCounts("all", "cycles", Database.events(recordings), 6898));
        for (CycleClass c : EnumSet.allOf(CycleClass.class)) {
            counts.add(new DatabaseCounts("all", "cycles: " + c.id(), cycles.getOrDefault(c, 0), expectedCycles(c)));
        }
        return counts;
    }

    private static int expectedCycles(CycleClass c) {
        return switch (c) {
            case NORMAL -> 3642;
            case CRACKLE -> 1864;
            case WHEEZE -> 886;
            case BOTH -> 506;
        };
    }

    private static List<AnnotatedRecording> only(List<AnnotatedRecording> recordings, Split split) {
        return recordings.stream().filter(r -> r.split() == split).toList();
    }

    static void warn(DatabaseKind kind, List<AnnotatedRecording> recordings, Warnings warnings) {
        for (DatabaseCounts count : of(kind, recordings)) {
            if (!count.agrees()) {
                warnings.add(String.format(
                        Locale.ROOT,
                        "%s, %s: %d found where the release holds %d; parts may be missing or from another release.",
                        count.part(),
                        count.what(),
                        count.found(),
                        count.expected()));
            }
        }
        long silent = recordings.stream().filter(r -> !r.hasAudio()).count();
        if (silent > 0) {
            warnings.add(String.format(
                    Locale.ROOT,
                    "The audio of %d of %d recordings is not there; only their annotations count.",
                    silent,
                    recordings.size()));
        }
    }
}
