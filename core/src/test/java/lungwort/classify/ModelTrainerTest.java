package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import lungwort.feature.TimeSpan;
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
        assertThat(ModelFile.read(one, "one").findsEvents()).isTrue();
    }

    /** Chance is what the same found sounds score in recordings they were not found in, all pairs of recordings together. */
    @Test
    void findsSingleSoundsOfOtherRecordingsBetterThanChance() {
        SoundModel model = NoiseModel.trainWithNet(1);
        List<TrainingItem> unseen = NoiseModel.items(2);
        List<List<HeardEvent>> found = new ArrayList<>();
        for (TrainingItem item : unseen) {
            NetLook seen = model.look(item.image());
            List<WindowAnswer> windows = Arrays.stream(item.windows())
                    .map(x -> model.window(x, item.recording()))
                    .toList();
            double[] whole = model.recordingProbabilities(windows, item.recording(), seen);
            found.add(model.events(seen, item.image(), item.sounds(), whole).sure());
        }
        for (boolean continuous : new boolean[] {true, false}) {
            double marked = 0;
            double told = 0;
            double right = 0;
            double byChance = 0;
            for (int i = 0; i < unseen.size(); i++) {
                marked += matching(unseen.get(i).marked(), continuous).size();
                told += found.get(i).stream()
                        .filter(e -> e.continuous() == continuous)
                        .count();
                right += right(found.get(i), unseen.get(i).marked(), continuous);
                for (TrainingItem other : unseen) {
                    byChance += right(found.get(i), other.marked(), continuous) / (double) unseen.size();
                }
            }
            assertThat(2 * right / (told + marked)).isGreaterThan(0.7);
            assertThat(2 * byChance / (told + marked)).isLessThan(0.5);
        }
    }

    /** Their own features say nothing here, so all that tells of a segment is what the net, learnt from other patients, sees in it. */
    @Test
    void judgesSegmentsByWhatTheNetSeesInThem() {
        List<TrainingItem> learnt = NoiseModel.items(1).stream()
                .map(ModelTrainerTest::withSilentSegments)
                .toList();
        ModelSettings s = NoiseModel.settings(new NetSettings(2, 2, 0.006));
        ModelSettings without = new ModelSettings(
                s.seed(),
                s.folds(),
                s.segment(),
                new BlendSettings(List.of("-*"), s.context().learners()),
                s.window(),
                s.bursts(),
                s.net(),
                s.recording(),
                s.events(),
                s.takes());
        double chance = 0.6;
        assertThat(rightSegments(ModelTrainer.fit(learnt, NoiseModel.folds(), s, what -> {})
                        .model()))
                .isGreaterThan(chance + 0.2);
        assertThat(rightSegments(ModelTrainer.fit(learnt, NoiseModel.folds(), without, what -> {})
                        .model()))
                .isLessThan(chance + 0.05);
    }

    /** Share of the segments of other patients' recordings that get their class. */
    private static double rightSegments(SoundModel model) {
        int right = 0;
        int all = 0;
        for (TrainingItem item : NoiseModel.items(2).stream()
                .map(ModelTrainerTest::withSilentSegments)
                .toList()) {
            NetLook seen = model.look(item.image());
            List<WindowAnswer> windows = Arrays.stream(item.windows())
                    .map(x -> model.window(x, item.recording()))
                    .toList();
            double[] whole = model.recordingProbabilities(windows, item.recording(), seen);
            double[][] p = model.inContext(
                            List.of(model.segments(item.segments(), item.spans(), seen, item.sounds(), whole)))
                    .get(0);
            for (int k = 0; k < p.length; k++) {
                right += Rows.likeliest(p[k]) == item.classes().get(k).ordinal() ? 1 : 0;
                all++;
            }
        }
        return (double) right / all;
    }

    /** A segment where {@link NoiseModel} has its continuous sounds and one where it has its discontinuous ones, each with its class; 36 of 60 of each are normal. */
    private static TrainingItem withSilentSegments(TrainingItem i) {
        List<TimeSpan> spans = List.of(new TimeSpan(0.08, 0.36), new TimeSpan(0.24, 0.52));
        List<SegmentClass> classes = List.of(
                i.marked().stream().anyMatch(MarkedSound::continuous) ? SegmentClass.WHEEZE : SegmentClass.NORMAL,
                i.marked().stream().anyMatch(MarkedSound::discontinuous)
                        ? SegmentClass.FINE_CRACKLE
                        : SegmentClass.NORMAL);
        return new TrainingItem(
                i.patient(),
                new float[2][i.segments()[0].length],
                classes,
                i.windows(),
                i.windowClasses(),
                i.recording(),
                i.label(),
                false,
                i.quality(),
                i.image(),
                i.heard(),
                i.marked(),
                i.sounds(),
                spans);
    }

    private static List<MarkedSound> matching(List<MarkedSound> marked, boolean continuous) {
        return marked.stream()
                .filter(m -> continuous ? m.continuous() : m.discontinuous())
                .toList();
    }

    /** Marked sounds that are found; each once. */
    private static long right(List<HeardEvent> found, List<MarkedSound> marked, boolean continuous) {
        return matching(marked, continuous).stream()
                .filter(m -> found.stream()
                        .anyMatch(e -> e.continuous() == continuous
                                && EventModel.share(e.startSeconds(), e.endSeconds(), m.startSeconds(), m.endSeconds())
                                        >= 0.5))
                .count();
    }

    /** A net may learn from where sounds were marked frame by frame, single sounds need their times. */
    @Test
    void singleSoundsWithoutMarkedSoundsAreRefusedInASentence() {
        List<TrainingItem> unmarked = NoiseModel.items(1).stream()
                .map(i -> called(i, Objects.requireNonNull(i.label())))
                .toList();
        assertThat(unmarked).allMatch(i -> i.marked().isEmpty() && i.heard().length == 2);
        ModelSettings settings = NoiseModel.settings(new NetSettings(1, 1, 0.006));
        assertThatThrownBy(() -> ModelTrainer.fit(unmarked, NoiseModel.folds(), settings, what -> {}))
                .isInstanceOf(lungwort.BadInput.class)
                .hasMessageContaining("leave 'events' out");
    }

    @Test
    void singleSoundsWithoutANetAreRefusedInASentence() {
        ModelSettings s = NoiseModel.settings(new NetSettings(1, 1, 0.006));
        assertThatThrownBy(() -> new ModelSettings(
                        s.seed(),
                        s.folds(),
                        s.segment(),
                        s.context(),
                        s.window(),
                        s.bursts(),
                        null,
                        s.recording(),
                        s.events(),
                        s.takes()))
                .isInstanceOf(lungwort.BadInput.class)
                .hasMessageContaining("give 'net', or leave 'events' out");
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
                        new boolean[0][],
                        List.of(),
                        List.of(),
                        List.of()))
                .toList();
        ModelSettings settings = NoiseModel.settings(new NetSettings(2, 2, 0.006));
        assertThatThrownBy(() -> ModelTrainer.fit(cycles, NoiseModel.folds(), settings, what -> {}))
                .isInstanceOf(lungwort.BadInput.class)
                .hasMessageContaining("leave 'net' out");
    }

    /** Recordings that nobody labelled, or in which nobody marked when a sound is heard, are answered by a net, and change nothing of what it learns; an altered copy teaches it as the recording does. */
    @Test
    void recordingsWithoutLabelOrTimesGetLogitsButTeachTheNetNothing() throws Exception {
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
        items.set(items.size() - 1, copy(other, other.label(), true, other.heard()));
        ChestNets after = net(ModelTrainer.fit(items, folds, settings, what -> {}));
        for (TrainingItem item : NoiseModel.items(3)) {
            assertThat(after.logits(item.image())).isNotEqualTo(before.logits(item.image()));
        }
    }

    /** A person of whom there is one recording has no others, whether or not it is also learnt from as an altered copy. */
    @Test
    void anAlteredCopyIsNotAmongThePersonsOtherRecordings() {
        List<TrainingItem> items = new ArrayList<>();
        for (int i = 0; i < NoiseModel.items(1).size(); i++) {
            items.add(of("p" + i, NoiseModel.items(1).get(i), false));
        }
        int plain = items.size();
        for (int i = 0; i < plain; i += 3) {
            items.add(of("p" + i, NoiseModel.items(2).get(i), true));
        }
        int[] folds = items.stream()
                .mapToInt(item -> Integer.parseInt(item.patient().substring(1)) % 3)
                .toArray();
        ModelTrainer.Trained trained = ModelTrainer.fit(items, folds, NoiseModel.settings(), what -> {});
        for (int i = 0; i < items.size(); i++) {
            assertThat(trained.recordings()[i]).isEqualTo(trained.recordingsAlone()[i]);
        }
    }

    /** Twice as many segments to learn from, half of them in copies: their classes are told better. */
    @Test
    void segmentsAreLearntFromAlteredCopiesToo() {
        List<TrainingItem> items = new ArrayList<>(NoiseModel.items(1));
        int[] folds = Arrays.copyOf(NoiseModel.folds(), 2 * items.size());
        System.arraycopy(NoiseModel.folds(), 0, folds, items.size(), items.size());
        for (TrainingItem item : NoiseModel.items(2)) {
            items.add(of(item.patient(), item, true));
        }
        SoundModel with = ModelTrainer.fit(items, folds, NoiseModel.settings(), what -> {})
                .model();
        SoundModel without = ModelTrainer.fit(
                        NoiseModel.items(1), NoiseModel.folds(), NoiseModel.settings(), what -> {})
                .model();
        double[] right = new double[2];
        for (TrainingItem item : NoiseModel.items(3)) {
            for (int s = 0; s < item.segments().length; s++) {
                int truth = item.classes().get(s).ordinal();
                right[0] += with.segmentProbabilities(item.segments()[s])[truth];
                right[1] += without.segmentProbabilities(item.segments()[s])[truth];
            }
        }
        assertThat(right[0]).isGreaterThan(right[1] + 5);
    }

    private static TrainingItem of(String patient, TrainingItem i, boolean altered) {
        return new TrainingItem(
                patient,
                i.segments(),
                i.classes(),
                i.windows(),
                i.windowClasses(),
                i.recording(),
                i.label(),
                altered,
                i.quality(),
                i.image(),
                i.heard(),
                i.marked(),
                i.sounds(),
                i.spans());
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
                item.heard(),
                List.of(),
                List.of(),
                List.of());
    }

    private static ChestNets net(ModelTrainer.Trained trained) {
        return Objects.requireNonNull(trained.model().stages().net()).nets();
    }

    private static TrainingItem copy(TrainingItem i, @Nullable RecordingClass label, boolean altered) {
        return copy(i, label, altered, altered ? new boolean[0][] : i.heard());
    }

    private static TrainingItem copy(
            TrainingItem i, @Nullable RecordingClass label, boolean altered, boolean[][] heard) {
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
                heard,
                List.of(),
                List.of(),
                List.of());
    }
}
