package lungwort.score;

import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import lungwort.dataset.CycleClass;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.RecordingLabel;

/** Turns predictions into a {@link ScoreReport}: the challenge's tasks, ROC areas, confusion matrices, calibration, with intervals by patient. */
public final class Scorer {
    private final int resamples;
    private final long seed;

    /**
     * @param resamples number of patient resamples for the intervals, at least 1
     * @param seed of the resampling
     */
    public Scorer(int resamples, long seed) {
        this.resamples = resamples;
        this.seed = seed;
    }

    /**
     * @param database which database the truth is from
     * @param split name of the split
     * @param model name of the model or recipe
     * @param events predictions for every annotated event scored
     * @param recordings predictions for every recording scored
     * @param leftOutRecordings recordings of the split that could not be scored for want of audio
     */
    public ScoreReport score(
            DatabaseKind database,
            String split,
            String model,
            List<EventPrediction> events,
            List<RecordingPrediction> recordings,
            int leftOutRecordings) {
        ResampledItems<EventPrediction> onEvents = resampled(events, EventPrediction::patient);
        ResampledItems<RecordingPrediction> onRecordings = resampled(recordings, RecordingPrediction::patient);
        boolean challenge = database == DatabaseKind.SPRSOUND;
        SortedMap<String, List<Calibration.Bin>> reliability = reliability(challenge, events, recordings);
        return new ScoreReport(
                database,
                split,
                model,
                recordings.size(),
                events.size(),
                patients(events, recordings),
                leftOutRecordings,
                resamples,
                seed,
                challenge
                        ? challengeTasks(onEvents, onRecordings)
                        : new TreeMap<>(Map.of(ScoreReport.ICBHI_TASK, onEvents.task(Scorer::icbhi))),
                eventAuc(onEvents),
                recordingAuc(challenge, onRecordings),
                challenge
                        ? Confusions.challenge(events, recordings)
                        : new TreeMap<>(Map.of(ScoreReport.ICBHI_TASK, Confusions.icbhi(events))),
                calibrationErrors(reliability),
                reliability,
                devices(events),
                AloneFigures.of(onRecordings, challenge),
                Collections.emptySortedMap());
    }

    /**
     * The same from what models answered, and for SPRSound, whose annotators marked sounds, with the events that were found without help; ICBHI's marked breath cycles.
     *
     * @param answers of models that had not seen the patients
     */
    public ScoreReport score(
            DatabaseKind database, String split, String model, CrossValidation.Result answers, int leftOutRecordings) {
        ScoreReport report = score(database, split, model, answers.events(), answers.recordings(), leftOutRecordings);
        if (database != DatabaseKind.SPRSOUND) {
            return report;
        }
        Map<String, String> patients = new TreeMap<>();
        judged(answers.recordings()).forEach(r -> patients.put(r.recording(), r.patient()));
        return report.withDetection(
                DetectionFigures.byBothRules(answers.annotated(), answers.found(), patients, resamples, seed));
    }

    private static int patients(List<EventPrediction> events, List<RecordingPrediction> recordings) {
        Set<String> patients = new HashSet<>();
        events.forEach(e -> patients.add(e.patient()));
        recordings.forEach(r -> patients.add(r.patient()));
        return patients.size();
    }

    private static SortedMap<String, TaskFigures> challengeTasks(
            ResampledItems<EventPrediction> events, ResampledItems<RecordingPrediction> recordings) {
        SortedMap<String, TaskFigures> tasks = new TreeMap<>();
        tasks.put("1-1", events.task(Scorer::task11));
        tasks.put("1-2", events.task(Scorer::task12));
        tasks.put("2-1", recordings.task(Scorer::task21));
        tasks.put("2-2", recordings.task(Scorer::task22));
        return tasks;
    }

    private static TaskScore task11(List<EventPrediction> events) {
        return ChallengeScore.task11(
                map(events, e -> e.truth().adventitious()), map(events, EventPrediction::calledAdventitious));
    }

    private static TaskScore task12(List<EventPrediction> events) {
        return ChallengeScore.task12(map(events, EventPrediction::truth), map(events, EventPrediction::called));
    }

    private static TaskScore task21(List<RecordingPrediction> recordings) {
        return ChallengeScore.task21(
                map(recordings, r -> RecordingVerdict.of(r.truth())), map(recordings, RecordingPrediction::verdict));
    }

    private static TaskScore task22(List<RecordingPrediction> recordings) {
        return ChallengeScore.task22(
                map(recordings, RecordingPrediction::truth), map(recordings, RecordingPrediction::called));
    }

    private static TaskScore icbhi(List<EventPrediction> cycles) {
        return ChallengeScore.icbhi(
                map(cycles, e -> CycleClass.of(e.truth())), map(cycles, e -> CycleClass.of(e.called())));
    }

    private static SortedMap<String, Figure> eventAuc(ResampledItems<EventPrediction> events) {
        return new TreeMap<>(Map.of("continuous", continuousAuc(events), "discontinuous", discontinuousAuc(events)));
    }

    private static Figure continuousAuc(ResampledItems<EventPrediction> events) {
        return events.auc(EventPrediction::continuous, Scorer::continuous);
    }

    private static Figure discontinuousAuc(ResampledItems<EventPrediction> events) {
        return events.auc(EventPrediction::discontinuous, Scorer::discontinuous);
    }

    private SortedMap<String, Figure> recordingAuc(boolean challenge, ResampledItems<RecordingPrediction> all) {
        ResampledItems<RecordingPrediction> judged = resampled(judged(all.items()), RecordingPrediction::patient);
        SortedMap<String, Figure> auc = new TreeMap<>();
        auc.put(
                "continuous",
                judged.auc(RecordingPrediction::continuous, r -> r.truth().continuous()));
        auc.put(
                "discontinuous",
                judged.auc(RecordingPrediction::discontinuous, r -> r.truth().discontinuous()));
        if (challenge) {
            auc.put("poorQuality", all.auc(RecordingPrediction::poorQuality, Scorer::poor));
        }
        return auc;
    }

    private static SortedMap<String, List<Calibration.Bin>> reliability(
            boolean challenge, List<EventPrediction> events, List<RecordingPrediction> recordings) {
        List<RecordingPrediction> judged = judged(recordings);
        SortedMap<String, List<Calibration.Bin>> bins = new TreeMap<>();
        bins.put("event.continuous", bins(events, EventPrediction::continuous, Scorer::continuous));
        bins.put("event.discontinuous", bins(events, EventPrediction::discontinuous, Scorer::discontinuous));
        bins.put(
                "recording.continuous",
                bins(judged, RecordingPrediction::continuous, r -> r.truth().continuous()));
        bins.put(
                "recording.discontinuous",
                bins(judged, RecordingPrediction::discontinuous, r -> r.truth().discontinuous()));
        bins.put(
                "alone.continuous",
                bins(judged, r -> r.alone().continuous(), r -> r.truth().continuous()));
        bins.put(
                "alone.discontinuous",
                bins(judged, r -> r.alone().discontinuous(), r -> r.truth().discontinuous()));
        if (challenge) {
            bins.put("recording.poorQuality", bins(recordings, RecordingPrediction::poorQuality, Scorer::poor));
            bins.put("alone.poorQuality", bins(recordings, r -> r.alone().poorQuality(), Scorer::poor));
        }
        return bins;
    }

    private static <T> List<Calibration.Bin> bins(
            List<T> items, ToDoubleFunction<T> probability, Predicate<T> positive) {
        return Calibration.bins(
                ResampledItems.scores(items, probability),
                ResampledItems.truths(items, positive),
                Calibration.DEFAULT_BINS);
    }

    private static SortedMap<String, Double> calibrationErrors(SortedMap<String, List<Calibration.Bin>> reliability) {
        SortedMap<String, Double> errors = new TreeMap<>();
        reliability.forEach((name, bins) -> errors.put(name, Calibration.expectedError(bins)));
        return errors;
    }

    private List<ScoreReport.DeviceFigures> devices(List<EventPrediction> events) {
        List<String> devices =
                events.stream().map(EventPrediction::device).distinct().sorted().toList();
        return map(devices, device -> {
            List<EventPrediction> own =
                    events.stream().filter(e -> e.device().equals(device)).toList();
            ResampledItems<EventPrediction> items = resampled(own, EventPrediction::patient);
            int recordings = new HashSet<>(map(own, EventPrediction::recording)).size();
            return new ScoreReport.DeviceFigures(
                    device, recordings, own.size(), continuousAuc(items), discontinuousAuc(items));
        });
    }

    private static boolean continuous(EventPrediction event) {
        return event.truth().continuous();
    }

    private static boolean discontinuous(EventPrediction event) {
        return event.truth().discontinuous();
    }

    private static boolean poor(RecordingPrediction recording) {
        return recording.truth() == RecordingLabel.POOR_QUALITY;
    }

    /** Whether a recording of poor quality holds an extra sound is not known, so it cannot tell how well one is found. */
    private static List<RecordingPrediction> judged(List<RecordingPrediction> recordings) {
        return recordings.stream().filter(r -> !poor(r)).toList();
    }

    private <T> ResampledItems<T> resampled(List<T> items, Function<T, String> patient) {
        return new ResampledItems<>(items, new PatientBootstrap(map(items, patient), resamples, seed));
    }

    private static <T, R> List<R> map(List<T> items, Function<T, R> function) {
        return items.stream().map(function).toList();
    }
}
