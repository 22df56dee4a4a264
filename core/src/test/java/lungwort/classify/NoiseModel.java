package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.quality.QualityMeasures;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.jspecify.annotations.Nullable;

/** A model trained in a moment on random features whose first ones tell the class: it has every part of a real one. */
final class NoiseModel {
    private static final int RECORDINGS = 60;
    private static final int FRAMES = 32;

    private NoiseModel() {}

    static List<TrainingItem> items(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        List<TrainingItem> items = new ArrayList<>();
        for (int i = 0; i < RECORDINGS; i++) {
            RecordingClass label = RecordingClass.values()[i % RecordingClass.COUNT];
            List<SegmentClass> classes = new ArrayList<>();
            float[][] segments = new float[3][];
            for (int s = 0; s < segments.length; s++) {
                SegmentClass c = SegmentClass.values()[(i + s) % SegmentClass.COUNT];
                classes.add(c);
                segments[s] = row(FeatureCatalogue.segment().size(), c.ordinal(), random);
            }
            float[][] windows = {
                row(FeatureCatalogue.segment().size(), label.ordinal(), random),
                row(FeatureCatalogue.segment().size(), label.ordinal(), random)
            };
            float[] recording = row(FeatureCatalogue.recording().size(), label.ordinal(), random);
            items.add(new TrainingItem(
                    "p" + i / 2,
                    segments,
                    classes,
                    windows,
                    new int[] {label.ordinal(), label.ordinal()},
                    recording,
                    label,
                    false,
                    quality(label, random),
                    image(label, seed * 1000 + i),
                    heard(label),
                    marked(label),
                    measured(label),
                    List.of(new TimeSpan(0.05, 0.2), new TimeSpan(0.2, 0.4), new TimeSpan(0.4, 0.6))));
        }
        return items;
    }

    /** Noise of 0.64 s; a tone where a continuous sound is, a click where a discontinuous one is, louder changes where the quality is poor. */
    private static float[][] image(RecordingClass label, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        boolean[][] heard = heard(label);
        float[][] image = new float[MelImage.ROWS][FRAMES];
        int tone = 4 + random.nextInt(20);
        for (int b = 0; b < image.length; b++) {
            for (int f = 0; f < FRAMES; f++) {
                double v = (label == RecordingClass.POOR_QUALITY ? 1.5 : 0.4) * random.nextGaussian();
                v += heard[0][f] && b == tone ? 2 : 0;
                v += heard[1][f] && f % 3 == 0 ? 1 : 0;
                image[b][f] = (float) Math.max(MelImage.LOWEST, Math.min(MelImage.HIGHEST, v));
            }
        }
        return MelImage.of(MelImage.bytes(image));
    }

    private static boolean[][] heard(RecordingClass label) {
        boolean[][] heard = new boolean[2][FRAMES];
        Arrays.fill(heard[0], 4, 18, label == RecordingClass.CONTINUOUS || label == RecordingClass.BOTH);
        Arrays.fill(heard[1], 12, 26, label == RecordingClass.DISCONTINUOUS || label == RecordingClass.BOTH);
        return heard;
    }

    /** The same as sounds: {@link #heard} in seconds. */
    private static List<MarkedSound> marked(RecordingClass label) {
        List<MarkedSound> marked = new ArrayList<>();
        if (label == RecordingClass.CONTINUOUS || label == RecordingClass.BOTH) {
            marked.add(new MarkedSound(4 * MelImage.HOP_SECONDS, 18 * MelImage.HOP_SECONDS, true, false));
        }
        if (label == RecordingClass.DISCONTINUOUS || label == RecordingClass.BOTH) {
            marked.add(new MarkedSound(12 * MelImage.HOP_SECONDS, 26 * MelImage.HOP_SECONDS, false, true));
        }
        return marked;
    }

    /** Within each marked sound one that was measured. */
    private static List<MeasuredSound> measured(RecordingClass label) {
        return marked(label).stream()
                .map(m -> m.continuous()
                        ? new ContinuousSound(
                                SoundKind.WHEEZE,
                                m.startSeconds() + 0.02,
                                m.endSeconds() - 0.02,
                                List.of(),
                                400,
                                1,
                                false,
                                0.9,
                                18)
                        : new Crackle(
                                SoundKind.COARSE_CRACKLE,
                                m.startSeconds() + 0.1,
                                m.startSeconds() + 0.11,
                                2,
                                11,
                                3,
                                20))
                .map(MeasuredSound.class::cast)
                .toList();
    }

    private static double[] quality(RecordingClass label, SplittableRandom random) {
        double[] x = new double[QualityMeasures.relativeNames().size()];
        for (int j = 0; j < x.length; j++) {
            x[j] = random.nextGaussian() + (label == RecordingClass.POOR_QUALITY && j < 6 ? 2 : 0);
        }
        return x;
    }

    private static float[] row(int n, int c, SplittableRandom random) {
        float[] x = new float[n];
        for (int j = 0; j < n; j++) {
            x[j] = (float) random.nextGaussian();
        }
        // Several features tell each class, as in life.
        for (int k = 0; k < 6; k++) {
            x[c + 7 * k] += 3;
        }
        return x;
    }

    static int[] folds() {
        int[] folds = new int[RECORDINGS];
        for (int i = 0; i < RECORDINGS; i++) {
            folds[i] = i / 2 % 3;
        }
        return folds;
    }

    static ModelSettings settings() {
        return settings(null);
    }

    /** @param chestNet null to train none, and none that finds single sounds */
    static ModelSettings settings(@Nullable NetSettings chestNet) {
        LearnerSettings trees = new LearnerSettings("boosted-trees", Map.of("rounds", 10.0, "leaves", 4.0));
        LearnerSettings forest = new LearnerSettings("forest", Map.of("trees", 5.0));
        LearnerSettings linear = new LearnerSettings("linear-softmax", Map.of("ridge", 10.0, "iterations", 30.0));
        LearnerSettings net = new LearnerSettings("perceptron", Map.of("nets", 1.0, "hidden", 4.0, "epochs", 2.0));
        return new ModelSettings(
                1,
                3,
                new BlendSettings(List.of(), List.of(trees, forest, linear, net)),
                new BlendSettings(List.of(), List.of(linear)),
                new BlendSettings(List.of(), List.of(linear, trees)),
                new BlendSettings(List.of("burst.*", "ridge.*"), List.of(linear)),
                chestNet,
                new BlendSettings(List.of(), List.of(linear, trees)),
                chestNet == null
                        ? null
                        : new EventSettings(new BlendSettings(List.of(), List.of(linear, trees)), trees),
                new BlendSettings(List.of(), List.of(linear)));
    }

    static SoundModel train(long seed) {
        return ModelTrainer.fit(items(seed), folds(), settings(), what -> {}).model();
    }

    static SoundModel trainWithNet(long seed) {
        return ModelTrainer.fit(items(seed), folds(), settings(new NetSettings(2, 2, 0.006)), what -> {})
                .model();
    }

    /** The same model with other single sounds, another rule of poor quality and other familiar spectra. */
    static SoundModel withEvents(
            SoundModel model, EventModel events, @Nullable PoorRule poorRule, @Nullable FamiliarSpectrum familiar) {
        SoundModel.Stages s = model.stages();
        return new SoundModel(
                new SoundModel.Stages(
                        s.segment(), s.context(), s.window(), s.bursts(), s.net(), s.recording(), events, s.takes()),
                model.calibrations(),
                model.calibrationsAlone(),
                model.unfamiliarScale(),
                model.limits(),
                poorRule,
                model.thresholds(),
                familiar,
                model.facts());
    }
}
