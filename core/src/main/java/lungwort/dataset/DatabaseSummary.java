package lungwort.dataset;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a database holds, counted.
 *
 * @param database what was counted
 * @param parts one for each side of the split that is there
 * @param counts found against expected
 * @param ages of the patients
 */
public record DatabaseSummary(Database database, List<Part> parts, List<DatabaseCounts> counts, Ages ages) {
    public DatabaseSummary {
        parts = List.copyOf(parts);
        counts = List.copyOf(counts);
    }

    /** Counts a database. */
    public static DatabaseSummary of(Database database) {
        List<Part> parts = new ArrayList<>();
        Map<Split, List<AnnotatedRecording>> bySplit = new EnumMap<>(Split.class);
        database.recordings()
                .forEach(r -> bySplit.computeIfAbsent(r.split(), s -> new ArrayList<>())
                        .add(r));
        bySplit.forEach((split, recordings) -> parts.add(Part.of(split, recordings)));
        return new DatabaseSummary(
                database,
                parts,
                DatabaseCounts.of(database.kind(), database.recordings()),
                Ages.of(database.recordings()));
    }

    /**
     * One side of the split.
     *
     * @param split which
     * @param recordings number of recordings
     * @param withAudio how many of them have their audio
     * @param patients number of patients
     * @param events number of annotated events
     * @param audioSeconds length of all audio, in seconds
     * @param eventLabels events by label
     * @param recordingLabels recordings by label
     * @param sites recordings by the database's code of the site
     * @param devices recordings by the database's code of the device
     * @param digest SHA-256 over names, sizes and annotations
     */
    public record Part(
            Split split,
            int recordings,
            int withAudio,
            int patients,
            int events,
            double audioSeconds,
            Map<EventLabel, Integer> eventLabels,
            Map<RecordingLabel, Integer> recordingLabels,
            SortedMap<String, Integer> sites,
            SortedMap<String, Integer> devices,
            String digest) {
        static Part of(Split split, List<AnnotatedRecording> recordings) {
            Map<EventLabel, Integer> eventLabels = new EnumMap<>(EventLabel.class);
            Map<RecordingLabel, Integer> recordingLabels = new EnumMap<>(RecordingLabel.class);
            SortedMap<String, Integer> sites = new TreeMap<>();
            SortedMap<String, Integer> devices = new TreeMap<>();
            double seconds = 0;
            for (AnnotatedRecording recording : recordings) {
                recording.events().forEach(e -> eventLabels.merge(e.label(), 1, Integer::sum));
                recordingLabels.merge(recording.label(), 1, Integer::sum);
                sites.merge(recording.site(), 1, Integer::sum);
                devices.merge(recording.device(), 1, Integer::sum);
                seconds += recording.durationSeconds().orElse(0);
            }
            return new Part(
                    split,
                    recordings.size(),
                    (int) recordings.stream()
                            .filter(AnnotatedRecording::hasAudio)
                            .count(),
                    Database.patients(recordings).size(),
                    Database.events(recordings),
                    seconds,
                    Collections.unmodifiableMap(eventLabels),
                    Collections.unmodifiableMap(recordingLabels),
                    Collections.unmodifiableSortedMap(sites),
                    Collections.unmodifiableSortedMap(devices),
                    Database.digest(recordings));
        }
    }

    /**
     * Ages of the patients, each at the first of their recordings.
     *
     * @param youngestYears NaN if no age is known
     * @param medianYears NaN if no age is known
     * @param oldestYears NaN if no age is known
     * @param unknown number of patients without one
     */
    public record Ages(double youngestYears, double medianYears, double oldestYears, int unknown) {
        static Ages of(List<AnnotatedRecording> recordings) {
            SortedMap<String, OptionalDouble> first = new TreeMap<>();
            recordings.forEach(r -> first.putIfAbsent(r.patient(), r.ageYears()));
            double[] years = first.values().stream()
                    .filter(OptionalDouble::isPresent)
                    .mapToDouble(OptionalDouble::getAsDouble)
                    .sorted()
                    .toArray();
            int unknown = first.size() - years.length;
            if (years.length == 0) {
                return new Ages(Double.NaN, Double.NaN, Double.NaN, unknown);
            }
            double median = (years[(years.length - 1) / 2] + years[years.length / 2]) / 2;
            return new Ages(years[0], median, years[years.length - 1], unknown);
        }
    }
}
