package lungwort.score;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import lungwort.dataset.DatabaseKind;

/**
 * All figures of one classifier on one split of one database.
 *
 * @param database which database
 * @param split the split's name, for example {@code inter}
 * @param model name of the model or recipe that answered
 * @param recordings number of recordings scored
 * @param events number of annotated events (ICBHI: breath cycles) scored
 * @param patients number of patients they are from
 * @param leftOutRecordings recordings of the split whose audio was not there
 * @param resamples number of patient resamples behind each interval
 * @param seed of the resampling
 * @param tasks figures by task: {@code 1-1} to {@code 2-2} for SPRSound, {@code icbhi-4} for ICBHI
 * @param eventAuc ROC areas over events: {@code continuous}, {@code discontinuous}
 * @param recordingAuc ROC areas over recordings: {@code continuous}, {@code discontinuous} (poor quality left out), {@code poorQuality}
 * @param confusions confusion matrices by task
 * @param calibration expected calibration errors over events and recordings, by name
 * @param reliability reliability diagrams, by the same names
 * @param devices figures over the events of each device, sorted by its code
 * @param alone figures of the answers to single recordings, as they are given at home
 * @param detection figures of events found without help, by rule; empty where none were sought
 */
public record ScoreReport(
        DatabaseKind database,
        String split,
        String model,
        int recordings,
        int events,
        int patients,
        int leftOutRecordings,
        int resamples,
        long seed,
        SortedMap<String, TaskFigures> tasks,
        SortedMap<String, Figure> eventAuc,
        SortedMap<String, Figure> recordingAuc,
        SortedMap<String, Confusion> confusions,
        SortedMap<String, Double> calibration,
        SortedMap<String, List<Calibration.Bin>> reliability,
        List<DeviceFigures> devices,
        AloneFigures alone,
        SortedMap<String, DetectionFigures> detection) {
    private static final Set<String> OFFICIAL_TEST_SETS = Set.of("inter", "intra", "test");

    /** ICBHI's one task: four classes over breath cycles. */
    public static final String ICBHI_TASK = "icbhi-4";

    public ScoreReport {
        tasks = copy(tasks);
        eventAuc = copy(eventAuc);
        recordingAuc = copy(recordingAuc);
        confusions = copy(confusions);
        calibration = copy(calibration);
        reliability = copy(reliability);
        detection = copy(detection);
        devices = List.copyOf(devices);
    }

    private static <V> SortedMap<String, V> copy(Map<String, V> map) {
        return Collections.unmodifiableSortedMap(new TreeMap<>(map));
    }

    /** The one number of a task: SPRSound's (AS + HS) / 2, but for ICBHI the mean of Se and Sp, as each challenge defines it. */
    public static double headline(String task, TaskScore score) {
        return task.equals(ICBHI_TASK) ? score.averageScore() : score.score();
    }

    /** The interval of {@link #headline(String, TaskScore)}. */
    public static Interval headline(String task, TaskFigures figures) {
        return task.equals(ICBHI_TASK) ? figures.as() : figures.score();
    }

    /** The same report with figures of events found without help. */
    public ScoreReport withDetection(SortedMap<String, DetectionFigures> found) {
        return new ScoreReport(
                database,
                split,
                model,
                recordings,
                events,
                patients,
                leftOutRecordings,
                resamples,
                seed,
                tasks,
                eventAuc,
                recordingAuc,
                confusions,
                calibration,
                reliability,
                devices,
                alone,
                found);
    }

    /** True if this is a whole official test set, so that published figures for it may stand beside these. */
    public boolean comparable() {
        return leftOutRecordings == 0 && OFFICIAL_TEST_SETS.contains(split);
    }

    /** The figures of a task; empty if the database cannot answer it. */
    public Optional<TaskFigures> task(String name) {
        return Optional.ofNullable(tasks.get(name));
    }

    /**
     * ROC areas over the events of one device.
     *
     * @param device the database's code
     * @param recordings number of recordings
     * @param events number of events
     * @param continuous area for continuous extra sounds
     * @param discontinuous area for discontinuous ones
     */
    public record DeviceFigures(String device, int recordings, int events, Figure continuous, Figure discontinuous) {}
}
