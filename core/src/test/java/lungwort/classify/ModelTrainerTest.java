package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class ModelTrainerTest {
    @Test
    void learnsAllThreeStages() {
        ModelTrainer.Trained trained =
                ModelTrainer.fit(NoiseModel.items(1), NoiseModel.folds(), NoiseModel.settings(), what -> {});
        List<TrainingItem> unseen = NoiseModel.items(2);
        int segments = 0;
        int recordings = 0;
        for (TrainingItem item : unseen) {
            double[][] alone = new double[item.segments().length][];
            for (int s = 0; s < alone.length; s++) {
                alone[s] = trained.model().segmentProbabilities(item.segments()[s]);
                segments += Rows.likeliest(alone[s]) == item.classes().get(s).ordinal() ? 1 : 0;
            }
            List<WindowAnswer> windows = Arrays.stream(item.windows())
                    .map(x -> trained.model().window(x, item.recording()))
                    .toList();
            NetLook seen = trained.model().look(item.image());
            double[] whole = trained.model().recordingProbabilities(windows, item.recording(), seen);
            recordings += item.label() != null
                            && Rows.likeliest(whole) == item.label().ordinal()
                    ? 1
                    : 0;
        }
        assertThat(segments / 180.0).isGreaterThan(0.6);
        assertThat(recordings / 60.0).isGreaterThan(0.6);
    }

    /** A fitted logistic scale states as many cases as there were (its intercept's equation); the ridge and each scale's own recordings leave it that. */
    @Test
    void eachScaleStatesTheShareOfWhatItWasFittedOn() {
        List<TrainingItem> items = NoiseModel.items(1);
        ModelTrainer.Trained trained = ModelTrainer.fit(items, NoiseModel.folds(), NoiseModel.settings(), what -> {});
        double among = 0;
        double alone = 0;
        double aloneByTheOther = 0;
        for (int i = 0; i < items.size(); i++) {
            if (items.get(i).label() != RecordingClass.POOR_QUALITY) {
                among += trained.model().calibrated(trained.recordings()[i]).continuous();
                alone += trained.model()
                        .calibratedAlone(trained.recordingsAlone()[i])
                        .continuous();
                aloneByTheOther +=
                        trained.model().calibrated(trained.recordingsAlone()[i]).continuous();
            }
        }
        // 24 of 48 judged recordings hold a continuous sound
        assertThat(among).isEqualTo(24, within(0.1));
        assertThat(alone).isEqualTo(24, within(0.1));
        assertThat(Math.abs(aloneByTheOther - 24)).isGreaterThan(Math.abs(alone - 24));
    }

    @Test
    void isTheSameForAnyNumberOfThreads() throws Exception {
        byte[] one = Rows.withThreads(1, () -> ModelFile.bytes(NoiseModel.train(1)));
        byte[] four = Rows.withThreads(4, () -> ModelFile.bytes(NoiseModel.train(1)));
        assertThat(four).isEqualTo(one);
    }

    @Test
    void withANetItIsTheSameForAnyNumberOfThreads() throws Exception {
        byte[] one = Rows.withThreads(1, () -> ModelFile.bytes(NoiseModel.trainWithNet(1)));
        byte[] four = Rows.withThreads(4, () -> ModelFile.bytes(NoiseModel.trainWithNet(1)));
        assertThat(four).isEqualTo(one);
    }

    /** ICBHI's breath cycles tell which breath holds a sound, not when it is heard. */
    @Test
    void aNetWithoutMarkedSoundsIsRefusedInASentence() {
        List<TrainingItem> cycles = NoiseModel.items(1).stream()
                .map(i -> new TrainingItem(
                        i.patient(),
                        i.segments(),
                        i.classes(),
                        i.windows(),
                        i.windowClasses(),
                        i.recording(),
                        i.label(),
                        false,
                        i.quality(),
                        i.image(),
                        new boolean[0][]))
                .toList();
        ModelSettings settings = NoiseModel.settings(new NetSettings(2, 2, 0.006));
        assertThatThrownBy(() -> ModelTrainer.fit(cycles, NoiseModel.folds(), settings, what -> {}))
                .isInstanceOf(lungwort.BadInput.class)
                .hasMessageContaining("leave 'net' out");
    }

    /** Altered copies and recordings that nobody labelled are answered by a net, and change nothing of what it learns. */
    @Test
    void alteredCopiesAndUnlabelledRecordingsGetLogitsButTeachTheNetNothing() throws Exception {
        List<TrainingItem> items = new ArrayList<>(NoiseModel.items(1));
        ModelSettings settings = NoiseModel.settings(new NetSettings(2, 2, 0.006));
        int[] folds = Arrays.copyOf(NoiseModel.folds(), items.size() + 2);
        ChestNets before = net(ModelTrainer.fit(items, NoiseModel.folds(), settings, what -> {}));
        TrainingItem other = NoiseModel.items(2).get(7);
        items.add(copy(other, other.label(), true));
        items.add(copy(other, null, false));
        folds[items.size() - 2] = folds[7];
        folds[items.size() - 1] = folds[7];
        ModelTrainer.Trained trained = ModelTrainer.fit(items, folds, settings, what -> {});
        assertThat(trained.recordingsAlone()).hasDimensions(items.size(), RecordingClass.COUNT);
        for (TrainingItem item : NoiseModel.items(3)) {
            assertThat(net(trained).logits(item.image())).isEqualTo(before.logits(item.image()));
        }
    }

    /** What a net says of a patient does not change with what listeners said of that patient; what it says of others does. */
    @Test
    void noNetHasSeenThePatientItAnswersFor() {
        List<TrainingItem> items = new ArrayList<>(NoiseModel.items(1));
        ModelSettings settings = NoiseModel.settings(new NetSettings(1, 1, 0.006));
        double[][] before = ModelTrainer.netLogits(items, NoiseModel.folds(), settings);
        String patient = items.get(0).patient();
        for (int i = 0; i < items.size(); i++) {
            if (items.get(i).patient().equals(patient)) {
                items.set(i, called(items.get(i), RecordingClass.POOR_QUALITY));
            }
        }
        double[][] after = ModelTrainer.netLogits(items, NoiseModel.folds(), settings);
        int changed = 0;
        for (int i = 0; i < items.size(); i++) {
            if (items.get(i).patient().equals(patient)) {
                assertThat(after[i]).isEqualTo(before[i]);
            } else {
                changed += java.util.Arrays.equals(after[i], before[i]) ? 0 : 1;
            }
        }
        assertThat(changed).isPositive();
    }

    private static TrainingItem called(TrainingItem item, RecordingClass label) {
        return new TrainingItem(
                item.patient(),
                item.segments(),
                item.classes(),
                item.windows(),
                item.windowClasses(),
                item.recording(),
                label,
                item.altered(),
                item.quality(),
                item.image(),
                item.heard());
    }

    private static ChestNets net(ModelTrainer.Trained trained) {
        return Objects.requireNonNull(trained.model().stages().net()).nets();
    }

    private static TrainingItem copy(TrainingItem i, @Nullable RecordingClass label, boolean altered) {
        return new TrainingItem(
                i.patient(),
                new float[0][],
                List.of(),
                i.windows(),
                i.windowClasses(),
                i.recording(),
                label,
                altered,
                i.quality(),
                i.image(),
                altered ? new boolean[0][] : i.heard());
    }
}
