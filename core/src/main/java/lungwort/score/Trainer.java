package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
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
import org.jspecify.annotations.Nullable;

/** Trains a model by recipe on annotated recordings. The same recipe and recordings give the same model, whatever the number of threads. */
public final class Trainer {
    private Trainer() {}

    /** Name of the fact that tells the databases whose training sets a model learnt from. */
    public static final String TRAINED_ON = "trainedOn";

    private static final String LEFT_OUT = "leftOutFold";
    private static final String RECIPE_TEXT = "recipeText";
    private static final String DIGEST = "trainingDataDigest";
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
        requireInnerFolds(recordings, recipe);
        return model(kind, measure(kind, recordings, recipe, measuring), recordings, recipe, measuring.progress());
    }

    private static SoundModel model(
            DatabaseKind kind,
            List<Measured> measured,
            List<AnnotatedRecording> learnt,
            Recipe recipe,
            Progress progress) {
        Map<String, String> facts = facts(learnt, recipe);
        if (kind == DatabaseKind.ICBHI) {
            facts.put(SEGMENTS, CYCLES);
        }
        return fit(measured, recipe, progress).with(facts);
    }

    /**
     * The model of one fold of a cross-validation, to be kept and tried on that fold's recordings in many ways ({@link #leftOut}): learnt from all others, as {@link CrossValidation} does.
     *
     * @param fold from 1 to {@link Recipe#outerFolds}
     * @throws BadInput as {@link #train}, or if there is no such fold
     */
    public static SoundModel trainWithout(
            int fold, DatabaseKind kind, List<AnnotatedRecording> recordings, Recipe recipe, Measuring measuring) {
        if (fold < 1 || fold > recipe.outerFolds()) {
            throw BadInput.of("There is no fold %d; the recipe has folds 1 to %d.", fold, recipe.outerFolds());
        }
        requireAudio(recordings);
        requireFolds(recordings, List.of(), recipe);
        List<Measured> measured = measure(kind, recordings, recipe, measuring);
        int[] folds = outerFolds(measured.stream().map(Measured::source).toList(), recipe);
        List<Measured> learnt = IntStream.range(0, folds.length)
                .filter(i -> folds[i] != fold - 1)
                .mapToObj(measured::get)
                .toList();
        return model(kind, learnt, without(fold, recordings, recipe), recipe, measuring.progress())
                .with(Map.of(LEFT_OUT, String.valueOf(fold)));
    }

    /** The recordings that {@link #trainWithout} learns from. */
    public static List<AnnotatedRecording> without(int fold, List<AnnotatedRecording> recordings, Recipe recipe) {
        return inFold(fold, recordings, recipe, false);
    }

    /**
     * The recordings of the fold that a model did not learn from.
     *
     * @param model made by {@link #trainWithout}
     * @param recordings the training set that it was made of, whole
     * @throws BadInput if the model left no fold out, or was made of other recordings
     */
    public static List<AnnotatedRecording> leftOut(SoundModel model, List<AnnotatedRecording> recordings) {
        int fold = leftOutFold(model)
                .orElseThrow(() -> new BadInput(
                        "This model learnt from a whole training set; make one with `lungwort train --leave-out 1`."));
        Recipe recipe = Recipe.parse(model.facts().getOrDefault(RECIPE_TEXT, ""), "the model's recipe");
        boolean enough = Database.patients(recordings).size() >= recipe.outerFolds();
        List<AnnotatedRecording> learnt = enough ? without(fold, recordings, recipe) : List.of();
        if (!Database.digest(learnt).equals(model.facts().get(DIGEST))) {
            throw new BadInput(
                    "This model was made of other recordings than these, or of others of them; which it has not seen cannot be told.");
        }
        return inFold(fold, recordings, recipe, true);
    }

    /** The fold that a model left out, from 1; empty for one that learnt from a whole training set. */
    public static OptionalInt leftOutFold(SoundModel model) {
        String fold = model.facts().getOrDefault(LEFT_OUT, "");
        return fold.matches("[1-9][0-9]?") ? OptionalInt.of(Integer.parseInt(fold)) : OptionalInt.empty();
    }

    private static List<AnnotatedRecording> inFold(
            int fold, List<AnnotatedRecording> recordings, Recipe recipe, boolean inside) {
        List<AnnotatedRecording> dealt = new ArrayList<>(recordings);
        if (recipe.alteredEvery() > 0) {
            dealt.addAll(everyNth(recordings, recipe.alteredEvery()));
        }
        int[] folds = outerFolds(dealt, recipe);
        return IntStream.range(0, recordings.size())
                .filter(i -> inside == (folds[i] == fold - 1))
                .mapToObj(recordings::get)
                .toList();
    }

    /** How cross-validation deals recordings and their altered copies to its folds. */
    static int[] outerFolds(List<AnnotatedRecording> dealt, Recipe recipe) {
        return folds(
                dealt.stream().map(AnnotatedRecording::patient).toList(),
                dealt.stream().map(Measured::recordingClass).toList(),
                recipe.outerFolds(),
                recipe.foldSeed());
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
        requireInnerFolds(all, recipe);
        List<Measured> measured = new ArrayList<>(measure(DatabaseKind.SPRSOUND, sprsound, recipe, measuring));
        measure(DatabaseKind.ICBHI, icbhi, recipe, measuring).forEach(m -> measured.add(m.cyclesAsWindows()));
        return fit(measured, recipe, measuring.progress()).with(facts(all, recipe));
    }

    /** True if a model learnt from the training set that some of these recordings belong to: its figures on them are no test. */
    public static boolean learntFrom(SoundModel model, DatabaseKind kind, List<AnnotatedRecording> recordings) {
        return model.facts().getOrDefault(TRAINED_ON, "").contains(kind.title())
                && leftOutFold(model).isEmpty()
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

    /**
     * Looks before anything is measured whether there are patients enough for every fold of a cross-validation.
     *
     * @param others recordings that every fold learns from beside
     * @throws BadInput if there are not
     */
    static void requireFolds(List<AnnotatedRecording> scored, List<AnnotatedRecording> others, Recipe recipe) {
        requirePatients(Database.patients(scored).size(), recipe.outerFolds(), "outerFolds");
        for (int fold = 1; fold <= recipe.outerFolds(); fold++) {
            List<AnnotatedRecording> learnt = new ArrayList<>(without(fold, scored, recipe));
            learnt.addAll(others);
            requireInnerFolds(learnt, recipe);
        }
    }

    private static void requireInnerFolds(List<AnnotatedRecording> learnt, Recipe recipe) {
        requirePatients(Database.patients(learnt).size(), recipe.model().folds(), "innerFolds");
    }

    private static void requirePatients(int patients, int folds, String key) {
        if (patients < folds) {
            throw BadInput.of(
                    "The recordings to learn from are of %s, and the recipe deals patients to %d '%s'; name a folder with recordings of more patients, or a recipe with fewer folds (2 at least).",
                    patients == 1 ? "1 patient" : patients + " patients", folds, key);
        }
    }

    static SoundModel fit(List<Measured> measured, Recipe recipe, Progress progress) {
        List<TrainingItem> items = measured.stream().map(Measured::item).toList();
        int[] folds = folds(items, recipe.model().folds(), recipe.foldSeed() + 1000);
        int steps = recipe.model().folds()
                + 2
                + (recipe.model().net() == null ? 0 : 1)
                + (recipe.model().events() == null ? 0 : 1);
        int[] step = new int[1];
        return ModelTrainer.fit(
                        items, folds, recipe.model(), what -> progress.at("training: " + what, ++step[0], steps))
                .model();
    }

    /** Patient folds, balanced by the recordings' labels. */
    static int[] folds(List<TrainingItem> items, int folds, long seed) {
        List<@Nullable RecordingClass> labels = new ArrayList<>();
        items.forEach(item -> labels.add(item.label()));
        return folds(items.stream().map(TrainingItem::patient).toList(), labels, folds, seed);
    }

    private static int[] folds(List<String> patients, List<@Nullable RecordingClass> labels, int folds, long seed) {
        int[] classes = labels.stream()
                .mapToInt(label -> label == null ? RecordingClass.COUNT : label.ordinal())
                .toArray();
        return PatientFolds.assign(patients, classes, folds, seed);
    }

    private static Map<String, String> facts(List<AnnotatedRecording> recordings, Recipe recipe) {
        Map<String, String> facts = new TreeMap<>();
        facts.put("recipe", recipe.name());
        facts.put(RECIPE_TEXT, recipe.text());
        facts.put(DIGEST, Database.digest(recordings));
        facts.put("trainingRecordings", String.valueOf(recordings.size()));
        facts.put("trainingEvents", String.valueOf(Database.events(recordings)));
        facts.put(
                "trainingPatients", String.valueOf(Database.patients(recordings).size()));
        facts.put("java", Runtime.version().feature() + "");
        return facts;
    }
}
