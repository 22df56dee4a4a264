package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.FeatureDefinition;

/**
 * Trains a {@link SoundModel}.
 *
 * <p>The later stages learn from probabilities of recordings whose patients the earlier stage had not seen (stacked generalisation, Wolpert 1992), and calibration and
 * thresholds from later stages that had not seen them either. Nothing is ever chosen on a patient whose figures it is reported on.
 */
public final class ModelTrainer {
    private final List<TrainingItem> items;
    private final int[] foldOfItem;
    private final ModelSettings settings;
    private final Consumer<String> progress;

    private ModelTrainer(
            List<TrainingItem> items, int[] foldOfItem, ModelSettings settings, Consumer<String> progress) {
        this.items = items;
        this.foldOfItem = foldOfItem;
        this.settings = settings;
        this.progress = progress;
    }

    /**
     * Trains on recordings.
     *
     * @param items recordings, at least one of each patient fold
     * @param foldOfItem inner fold of each recording, in [0, settings.folds()), the same for all recordings of a patient
     * @param settings what to train
     * @param progress told what is being done, one line at a time
     * @return the model and what it said of each training recording when it had not seen its patient
     */
    public static Trained fit(
            List<TrainingItem> items, int[] foldOfItem, ModelSettings settings, Consumer<String> progress) {
        return new ModelTrainer(items, foldOfItem, settings, progress).fit();
    }

    /**
     * A trained model with the out-of-fold probabilities it was calibrated on.
     *
     * @param model the model
     * @param segments of each recording and segment, in context
     * @param recordings of each recording, before calibration
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    public record Trained(SoundModel model, double[][][] segments, double[][] recordings) {}

    private Trained fit() {
        int n = items.size();
        double[][][] alone = new double[n][][];
        double[][][] windows = new double[n][][];
        for (int fold = 0; fold < settings.folds(); fold++) {
            progress.accept("segments, fold %d of %d".formatted(fold + 1, settings.folds()));
            Blend blend = segmentBlend(without(fold));
            int held = fold;
            IntStream.range(0, n).parallel().filter(i -> foldOfItem[i] == held).forEach(i -> {
                alone[i] = all(blend, items.get(i).segments());
                windows[i] = all(blend, items.get(i).windows());
            });
        }
        progress.accept("segments, all");
        Blend segment = segmentBlend(everything());
        progress.accept("context and recordings");
        double[][][] inContext = new double[n][][];
        double[][] recordings = new double[n][];
        for (int fold = 0; fold < settings.folds(); fold++) {
            Blend context = contextBlend(without(fold), alone);
            Blend recording = recordingBlend(without(fold), windows);
            int held = fold;
            IntStream.range(0, n).parallel().filter(i -> foldOfItem[i] == held).forEach(i -> {
                inContext[i] = SoundModel.inContext(alone[i], context);
                recordings[i] = recording.probabilities(
                        PoolFeatures.of(windows[i], items.get(i).recording()));
            });
        }
        Blend context = contextBlend(everything(), alone);
        Blend recording = recordingBlend(everything(), windows);
        SoundModel model = new SoundModel(
                segment, context, recording, calibrate(recordings), thresholds(inContext, recordings), Map.of());
        return new Trained(model, inContext, recordings);
    }

    private int[] without(int fold) {
        return IntStream.range(0, items.size())
                .filter(i -> foldOfItem[i] != fold)
                .toArray();
    }

    private int[] everything() {
        return IntStream.range(0, items.size()).toArray();
    }

    private static double[][] all(Blend blend, float[][] rows) {
        return Arrays.stream(rows).map(blend::probabilities).toArray(double[][]::new);
    }

    private Blend segmentBlend(int[] chosen) {
        List<float[]> x = new ArrayList<>();
        List<Integer> y = new ArrayList<>();
        for (int i : chosen) {
            TrainingItem item = items.get(i);
            x.addAll(Arrays.asList(item.segments()));
            item.classes().forEach(c -> y.add(c.ordinal()));
        }
        int[] columns = columns(FeatureCatalogue.segment(), 0, settings.segment());
        return blend(x, y, SegmentClass.COUNT, columns, settings.segment(), 1);
    }

    private Blend contextBlend(int[] chosen, double[][][] alone) {
        List<float[]> x = new ArrayList<>();
        List<Integer> y = new ArrayList<>();
        for (int i : chosen) {
            x.addAll(Arrays.asList(ContextFeatures.of(alone[i])));
            items.get(i).classes().forEach(c -> y.add(c.ordinal()));
        }
        int[] columns = IntStream.range(0, ContextFeatures.SIZE).toArray();
        return blend(x, y, SegmentClass.COUNT, columns, settings.context(), 2);
    }

    private Blend recordingBlend(int[] chosen, double[][][] windows) {
        List<float[]> x = new ArrayList<>();
        List<Integer> y = new ArrayList<>();
        for (int i : chosen) {
            RecordingClass label = items.get(i).label();
            if (label != null) {
                x.add(PoolFeatures.of(windows[i], items.get(i).recording()));
                y.add(label.ordinal());
            }
        }
        int[] columns = columns(FeatureCatalogue.recording(), PoolFeatures.POOLED, settings.recording());
        return blend(x, y, RecordingClass.COUNT, columns, settings.recording(), 3);
    }

    private Blend blend(List<float[]> x, List<Integer> y, int classes, int[] columns, BlendSettings s, int stage) {
        double[] weight = new double[x.size()];
        Arrays.fill(weight, 1);
        int[] labels = y.stream().mapToInt(Integer::intValue).toArray();
        return Blend.fit(x.toArray(float[][]::new), labels, weight, classes, columns, s, settings.seed() * 17 + stage);
    }

    /** The first columns, then those of the catalogue that the settings use. */
    private static int[] columns(FeatureCatalogue catalogue, int before, BlendSettings s) {
        IntStream.Builder columns = IntStream.builder();
        IntStream.range(0, before).forEach(columns::add);
        List<FeatureDefinition> features = catalogue.features();
        for (int i = 0; i < features.size(); i++) {
            if (s.uses(features.get(i).name())) {
                columns.add(before + i);
            }
        }
        int[] chosen = columns.build().toArray();
        if (chosen.length == 0) {
            throw new lungwort.BadInput(
                    "The recipe names features that the catalogue does not have; 'lungwort features' lists them.");
        }
        return chosen;
    }

    private SoundModel.Calibrations calibrate(double[][] recordings) {
        List<double[]> judged = new ArrayList<>();
        List<RecordingClass> labels = new ArrayList<>();
        List<double[]> all = new ArrayList<>();
        List<RecordingClass> allLabels = new ArrayList<>();
        for (int i = 0; i < recordings.length; i++) {
            RecordingClass label = items.get(i).label();
            if (label == null) {
                continue;
            }
            all.add(recordings[i]);
            allLabels.add(label);
            if (label != RecordingClass.POOR_QUALITY) {
                judged.add(recordings[i]);
                labels.add(label);
            }
        }
        return new SoundModel.Calibrations(
                platt(judged, labels, p -> RecordingClass.continuous(p) / (1 - p[4]), RecordingClass.CONTINUOUS),
                platt(judged, labels, p -> RecordingClass.discontinuous(p) / (1 - p[4]), RecordingClass.DISCONTINUOUS),
                platt(all, allLabels, RecordingClass::poorQuality, RecordingClass.POOR_QUALITY));
    }

    private static PlattScale platt(
            List<double[]> p,
            List<RecordingClass> labels,
            java.util.function.ToDoubleFunction<double[]> aspect,
            RecordingClass positive) {
        boolean[] truth = new boolean[p.size()];
        for (int i = 0; i < truth.length; i++) {
            RecordingClass label = labels.get(i);
            truth[i] = label == positive || label == RecordingClass.BOTH && positive != RecordingClass.POOR_QUALITY;
        }
        return PlattScale.fit(p.stream().mapToDouble(aspect).toArray(), truth);
    }

    private Thresholds thresholds(double[][][] segments, double[][] recordings) {
        List<double[]> p = new ArrayList<>();
        List<Integer> y = new ArrayList<>();
        List<double[]> q = new ArrayList<>();
        List<Integer> z = new ArrayList<>();
        for (int i = 0; i < recordings.length; i++) {
            p.addAll(Arrays.asList(segments[i]));
            items.get(i).classes().forEach(c -> y.add(c.ordinal()));
            RecordingClass label = items.get(i).label();
            if (label != null) {
                q.add(recordings[i]);
                z.add(label.ordinal());
            }
        }
        return ThresholdSearch.choose(p.toArray(double[][]::new), ints(y), q.toArray(double[][]::new), ints(z));
    }

    private static int[] ints(List<Integer> values) {
        return values.stream().mapToInt(Integer::intValue).toArray();
    }
}
