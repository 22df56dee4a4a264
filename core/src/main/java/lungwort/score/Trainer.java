package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import lungwort.BadInput;
import lungwort.classify.ModelTrainer;
import lungwort.classify.RecordingClass;
import lungwort.classify.SoundModel;
import lungwort.classify.TrainingItem;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.Database;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Split;

/** Trains a model by recipe on annotated recordings. The same recipe and recordings give the same model, whatever the number of threads. */
public final class Trainer {
    private Trainer() {}

    /** Name of the fact that tells the databases whose training sets a model learnt from. */
    public static final String TRAINED_ON = "trainedOn";

    private static final String SEGMENTS = "segments";
    private static final String CYCLES = "breath cycles";

    /**
     * Measures recordings of one database and trains on them.
     *
     * @param kind their database
     * @param recordings with audio and annotations
     * @throws BadInput if audio is missing or the recipe cannot be followed
     */
    public static SoundModel train(
            DatabaseKind kind, List<AnnotatedRecording> recordings, Recipe recipe, Measuring measuring) {
        requireAudio(recordings);
        List<Measured> measured = measure(kind, recordings, recipe, measuring);
        Map<String, String> facts = facts(recordings, recipe);
        if (kind == DatabaseKind.ICBHI) {
            facts.put(SEGMENTS, CYCLES);
        }
        return fit(measured, recipe, measuring.progress()).with(facts);
    }

    /**
     * Trains on SPRSound and ICBHI together.
     *
     * @param sprsound learnt from whole
     * @param icbhi learnt from by its breath cycles as windows
     * @throws BadInput as {@link #train}
     */
    public static SoundModel trainOnBoth(
            List<AnnotatedRecording> sprsound, List<AnnotatedRecording> icbhi, Recipe recipe, Measuring measuring) {
        List<AnnotatedRecording> all = new ArrayList<>(sprsound);
        all.addAll(icbhi);
        requireAudio(all);
        List<Measured> measured = new ArrayList<>(measure(DatabaseKind.SPRSOUND, sprsound, recipe, measuring));
        measure(DatabaseKind.ICBHI, icbhi, recipe, measuring).forEach(m -> measured.add(m.cyclesAsWindows()));
        return fit(measured, recipe, measuring.progress()).with(facts(all, recipe));
    }

    /** True if a model learnt from the training set that some of these recordings belong to: its figures on them are no test. */
    public static boolean learntFrom(SoundModel model, DatabaseKind kind, List<AnnotatedRecording> recordings) {
        return model.facts().getOrDefault(TRAINED_ON, "").contains(kind.title())
                && recordings.stream().anyMatch(r -> r.split() == Split.TRAIN);
    }

    /** True if a model's marked segments were breath cycles, so that it can judge cycles as such. */
    static boolean learntCycles(SoundModel model) {
        return CYCLES.equals(model.facts().get(SEGMENTS));
    }

    /** All recordings, and behind them the altered copies that the recipe asks for. */
    static List<Measured> measure(
            DatabaseKind kind, List<AnnotatedRecording> recordings, Recipe recipe, Measuring measuring) {
        Measurer measurer = new Measurer(measuring);
        List<Measured> measured = new ArrayList<>(measurer.all(recordings, Measurer.Purpose.ANSWERED));
        if (recipe.alteredEvery() > 0) {
            measured.addAll(measurer.altered(
                    everyNth(recordings, recipe.alteredEvery()), recipe.model().seed()));
        }
        return kind == DatabaseKind.ICBHI
                ? measured.stream().map(Measured::withCycles).toList()
                : measured;
    }

    static List<AnnotatedRecording> everyNth(List<AnnotatedRecording> recordings, int n) {
        return IntStream.range(0, recordings.size())
                .filter(i -> i % n == 0)
                .mapToObj(recordings::get)
                .toList();
    }

    static void requireAudio(List<AnnotatedRecording> recordings) {
        for (AnnotatedRecording r : recordings) {
            if (!r.hasAudio()) {
                throw BadInput.of(
                        "%s: the audio of an annotated recording is missing; unpack the whole download.", r.audio());
            }
        }
    }

    static SoundModel fit(List<Measured> measured, Recipe recipe, Progress progress) {
        List<TrainingItem> items = measured.stream().map(Measured::item).toList();
        int[] folds = folds(items, recipe.model().folds(), recipe.foldSeed() + 1000);
        int steps = recipe.model().folds() + (recipe.model().net() == null ? 2 : 3);
        int[] step = new int[1];
        return ModelTrainer.fit(
                        items, folds, recipe.model(), what -> progress.at("training: " + what, ++step[0], steps))
                .model();
    }

    /** Patient folds, balanced by the recordings' labels. */
    static int[] folds(List<TrainingItem> items, int folds, long seed) {
        int[] classes = items.stream()
                .mapToInt(i ->
                        i.label() == null ? RecordingClass.COUNT : i.label().ordinal())
                .toArray();
        return PatientFolds.assign(items.stream().map(TrainingItem::patient).toList(), classes, folds, seed);
    }

    private static Map<String, String> facts(List<AnnotatedRecording> recordings, Recipe recipe) {
        Map<String, String> facts = new TreeMap<>();
        facts.put("recipe", recipe.name());
        facts.put("recipeText", recipe.text());
        facts.put("trainingDataDigest", Database.digest(recordings));
        facts.put("trainingRecordings", String.valueOf(recordings.size()));
        facts.put("trainingEvents", String.valueOf(Database.events(recordings)));
        facts.put(
                "trainingPatients", String.valueOf(Database.patients(recordings).size()));
        facts.put("java", Runtime.version().feature() + "");
        return facts;
    }
}
