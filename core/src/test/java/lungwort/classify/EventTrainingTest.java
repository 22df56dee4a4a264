package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import lungwort.BadInput;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** That limits are chosen on patients not learnt from: common practice. */
class EventTrainingTest {
    private static final int FRAMES = 200;
    private static final int FOLDS = 3;
    private static final BlendSettings SETTINGS = new BlendSettings(
            List.of(),
            List.of(
                    new LearnerSettings("linear-softmax", Map.of("ridge", 10.0, "iterations", 30.0)),
                    new LearnerSettings("boosted-trees", Map.of("rounds", 20.0, "leaves", 8.0))));

    /** Recordings with what the nets and the models of the whole said of each. */
    private static final class Recordings {
        final List<TrainingItem> items = new ArrayList<>();
        final List<float[][]> frames = new ArrayList<>();
        final List<double[]> whole = new ArrayList<>();
        final List<Integer> folds = new ArrayList<>();

        void add(TrainingItem item, float[][] seen, double[] p, int fold) {
            items.add(item);
            frames.add(seen);
            whole.add(p);
            folds.add(fold);
        }

        Recordings where(IntPredicate chosen) {
            Recordings some = new Recordings();
            IntStream.range(0, items.size())
                    .filter(chosen)
                    .forEach(i -> some.add(items.get(i), frames.get(i), whole.get(i), folds.get(i)));
            return some;
        }

        EventModel train(BlendSettings settings) {
            return train(settings, null);
        }

        EventModel train(BlendSettings settings, @Nullable LearnerSettings edges) {
            int[] foldOfItem = folds.stream().mapToInt(Integer::intValue).toArray();
            return new EventTraining(items, foldOfItem, FOLDS, new EventSettings(settings, edges), 5)
                    .train(frames.toArray(float[][][]::new), whole.toArray(double[][]::new));
        }
    }

    /** Two recordings of 4 s of each of 18 patients. Where a sound is marked the net says yes, more or less; so it does in as many places where none is. Half the tones are measured. */
    private static Recordings recordings(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        Recordings all = new Recordings();
        for (int i = 0; i < 36; i++) {
            float[][] frames = new float[2][FRAMES];
            for (float[] kind : frames) {
                for (int f = 0; f < FRAMES; f += 8) {
                    Arrays.fill(kind, f, f + 8, (float) (-4 + 0.7 * random.nextGaussian()));
                }
            }
            List<MarkedSound> marked = new ArrayList<>();
            List<MeasuredSound> sounds = new ArrayList<>();
            for (int place = 0; place < 4; place++) {
                int from = 50 * place + random.nextInt(10);
                int to = from + 15 + random.nextInt(20);
                int kind = random.nextInt(2);
                boolean real = random.nextBoolean();
                if (real) {
                    marked.add(new MarkedSound(from * 0.02, to * 0.02, kind == 0, kind == 1));
                }
                add(frames[kind], from, to, (real ? 4 : 2.5) + random.nextGaussian());
                if (kind == 0 && random.nextBoolean()) {
                    sounds.add(new ContinuousSound(
                            SoundKind.WHEEZE, from * 0.02 + 0.1, to * 0.02 - 0.1, List.of(), 400, 0, false, 0.9, 18));
                } else if (real) {
                    sounds.add(
                            new Crackle(SoundKind.COARSE_CRACKLE, from * 0.02 + 0.1, from * 0.02 + 0.11, 2, 11, 3, 20));
                }
            }
            int patient = i / 2;
            double[] whole = {0.2, 0.2 * random.nextDouble(), 0.2, 0.2, 0.1};
            all.add(
                    item("p" + patient, RecordingClass.NORMAL, false, true, marked, sounds),
                    frames,
                    whole,
                    patient % FOLDS);
        }
        return all;
    }

    private static void add(float[] track, int from, int to, double more) {
        for (int f = from; f < to; f++) {
            track[f] += (float) more;
        }
    }

    private static TrainingItem item(
            String patient,
            @Nullable RecordingClass label,
            boolean altered,
            boolean heard,
            List<MarkedSound> marked,
            List<MeasuredSound> sounds) {
        return new TrainingItem(
                patient,
                new float[0][],
                List.of(),
                new float[1][0],
                new int[] {0},
                new float[0],
                label,
                altered,
                new double[0],
                new float[64][FRAMES],
                heard ? new boolean[2][FRAMES] : new boolean[0][],
                marked,
                sounds,
                List.of());
    }

    private static byte[] bytes(EventModel model) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        DataOutputStream out = new DataOutputStream(bytes);
        model.continuous().write(out);
        model.discontinuous().write(out);
        out.writeDouble(model.continuousLimit().from());
        out.writeDouble(model.discontinuousLimit().from());
        EventModel.Edges edges = model.edges();
        if (edges != null) {
            edges.continuous().start().write(out);
            edges.continuous().end().write(out);
            edges.discontinuous().start().write(out);
            edges.discontinuous().end().write(out);
        }
        return bytes.toByteArray();
    }

    /** A found sound with whether it is right. */
    private record Told(double probability, boolean right) {}

    /** All that a model finds of one kind, whatever its limit; marked sounds of a recording never touch, so that what finds one finds no other. */
    private static List<Told> told(EventModel model, Recordings recordings, boolean continuous) {
        EventModel all =
                new EventModel(model.continuous(), model.discontinuous(), EventLimit.from(0), EventLimit.from(0));
        List<Told> told = new ArrayList<>();
        for (int i = 0; i < recordings.items.size(); i++) {
            TrainingItem item = recordings.items.get(i);
            List<MarkedSound> left = new ArrayList<>(item.marked());
            all.heard(recordings.frames.get(i), item.image(), item.sounds(), recordings.whole.get(i)).sure().stream()
                    .filter(e -> e.continuous() == continuous)
                    .sorted(Comparator.comparingDouble(HeardEvent::probability).reversed())
                    .forEach(e -> told.add(new Told(
                            e.probability(),
                            left.removeIf(m -> (continuous ? m.continuous() : m.discontinuous())
                                    && EventModel.share(
                                                    e.startSeconds(), e.endSeconds(), m.startSeconds(), m.endSeconds())
                                            >= 0.5))));
        }
        return told;
    }

    private static long marked(Recordings recordings, boolean continuous) {
        return recordings.items.stream()
                .flatMap(i -> i.marked().stream())
                .filter(m -> continuous ? m.continuous() : m.discontinuous())
                .count();
    }

    private static double f(List<Told> told, double limit, long marked) {
        long found = told.stream().filter(t -> t.probability >= limit).count();
        long right =
                told.stream().filter(t -> t.probability >= limit && t.right).count();
        return 2.0 * right / (found + marked);
    }

    /** The highest of those cuts at which F is highest. */
    private static double bestCut(List<Told> told, long marked) {
        double best = 1;
        for (double p : told.stream()
                .map(Told::probability)
                .collect(Collectors.toCollection(TreeSet::new))
                .descendingSet()) {
            best = f(told, p, marked) > f(told, best, marked) ? p : best;
        }
        return best;
    }

    /**
     * Each fold's sounds are judged by a model of the other folds, trained here by itself; all cuts are tried. Chosen on what the model itself learnt from, the limits would be others.
     */
    @Test
    void limitsAreChosenOnPatientsThatWereNotLearntFrom() {
        Recordings all = recordings(1);
        EventModel model = all.train(SETTINGS);
        EventModel[] others = new EventModel[FOLDS];
        for (int fold = 0; fold < FOLDS; fold++) {
            int left = fold;
            others[fold] = all.where(i -> all.folds.get(i) != left).train(SETTINGS);
        }
        for (boolean continuous : new boolean[] {true, false}) {
            List<Told> told = new ArrayList<>();
            for (int fold = 0; fold < FOLDS; fold++) {
                int own = fold;
                told.addAll(told(others[fold], all.where(i -> all.folds.get(i) == own), continuous));
            }
            double limit = continuous
                    ? model.continuousLimit().from()
                    : model.discontinuousLimit().from();
            assertThat(limit).isEqualTo(bestCut(told, marked(all, continuous)));
            double bySelf = bestCut(told(model, all, continuous), marked(all, continuous));
            assertThat(limit).isNotEqualTo(bySelf);
        }
    }

    @Test
    void isTheSameForAnyNumberOfThreads() throws Exception {
        byte[] one = Rows.withThreads(1, () -> bytes(recordings(1).train(SETTINGS)));
        byte[] four = Rows.withThreads(4, () -> bytes(recordings(1).train(SETTINGS)));
        assertThat(four).isEqualTo(one);
        assertThat(bytes(recordings(2).train(SETTINGS))).isNotEqualTo(one);
    }

    private static final LearnerSettings EDGES = new LearnerSettings(
            "boosted-trees",
            Map.of("rounds", 60.0, "leaves", 4.0, "columnShare", 1.0, "rowShare", 1.0, "learningRate", 0.1));

    /** The same recordings, but listeners mark tones 0.2 s sooner than the net hears them, and crackles until 0.2 s later. */
    private static Recordings markedElsewhere(long seed) {
        Recordings as = recordings(seed);
        Recordings moved = new Recordings();
        for (int i = 0; i < as.items.size(); i++) {
            TrainingItem item = as.items.get(i);
            List<MarkedSound> marked = item.marked().stream()
                    .map(m -> m.continuous()
                            ? new MarkedSound(Math.max(0, m.startSeconds() - 0.2), m.endSeconds(), true, false)
                            : new MarkedSound(m.startSeconds(), m.endSeconds() + 0.2, false, true))
                    .toList();
            moved.add(
                    item(item.patient(), item.label(), false, true, marked, item.sounds()),
                    as.frames.get(i),
                    as.whole.get(i),
                    as.folds.get(i));
        }
        return moved;
    }

    /** How far the edges of what is heard lie from those of the marked sound that it shares most with, on the mean, in seconds: starts of tones, ends of crackles. */
    private static double off(EventModel model, Recordings recordings) {
        List<Double> off = new ArrayList<>();
        for (int i = 0; i < recordings.items.size(); i++) {
            TrainingItem item = recordings.items.get(i);
            for (HeardEvent e : model.heard(
                            recordings.frames.get(i), item.image(), item.sounds(), recordings.whole.get(i))
                    .sure()) {
                item.marked().stream()
                        .filter(m -> m.is(e.continuous())
                                && EventModel.share(e.startSeconds(), e.endSeconds(), m.startSeconds(), m.endSeconds())
                                        > 0.3)
                        .findFirst()
                        .ifPresent(m -> off.add(Math.abs(
                                e.continuous()
                                        ? e.startSeconds() - m.startSeconds()
                                        : e.endSeconds() - m.endSeconds())));
            }
        }
        assertThat(off).hasSizeGreaterThan(20);
        return off.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    }

    /** On recordings that were not learnt from. */
    @Test
    void edgesAreMovedToWhereListenersMarkThem() {
        Recordings learnt = markedElsewhere(1);
        Recordings others = markedElsewhere(2);
        double found = off(learnt.train(SETTINGS), others);
        double moved = off(learnt.train(SETTINGS, EDGES), others);
        assertThat(found).isGreaterThan(0.15);
        assertThat(moved).isLessThan(0.07);
    }

    @Test
    void edgesAreTheSameForAnyNumberOfThreads() throws Exception {
        byte[] one = Rows.withThreads(1, () -> bytes(recordings(1).train(SETTINGS, EDGES)));
        byte[] four = Rows.withThreads(4, () -> bytes(recordings(1).train(SETTINGS, EDGES)));
        assertThat(four).isEqualTo(one);
        assertThat(bytes(recordings(1).train(SETTINGS))).isNotEqualTo(one);
    }

    /** All marks are so short that nothing that stands out is near them. */
    private static Recordings markedNowhereNear() {
        Recordings far = new Recordings();
        Recordings all = recordings(1);
        for (int i = 0; i < all.items.size(); i++) {
            TrainingItem item = all.items.get(i);
            List<MarkedSound> marked = List.of(new MarkedSound(0.31, 0.32, true, true));
            far.add(
                    item(item.patient(), item.label(), false, true, marked, item.sounds()),
                    all.frames.get(i),
                    all.whole.get(i),
                    all.folds.get(i));
        }
        return far;
    }

    @Test
    void withoutAnyStretchNearAMarkedSoundEdgesAreRefusedInASentence() {
        Recordings far = markedNowhereNear();
        assertThatThrownBy(() -> far.train(SETTINGS, EDGES))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("leave 'edges' out");
    }

    /** Altered copies, recordings too poor to judge, those that nobody labelled and those in which nobody marked when a sound is heard. */
    @Test
    void whatListenersDidNotMarkAsItWasRecordedTeachesNothing() throws IOException {
        byte[] before = bytes(recordings(1).train(SETTINGS));
        Recordings more = recordings(1);
        Recordings others = recordings(2);
        for (int i = 0; i < 24; i++) {
            TrainingItem other = others.items.get(i);
            RecordingClass label = i % 4 == 1 ? RecordingClass.POOR_QUALITY : i % 4 == 2 ? null : other.label();
            more.add(
                    item(other.patient(), label, i % 4 == 0, i % 4 != 3, other.marked(), other.sounds()),
                    others.frames.get(i),
                    others.whole.get(i),
                    others.folds.get(i));
        }
        assertThat(bytes(more.train(SETTINGS))).isEqualTo(before);
        more.add(others.items.get(30), others.frames.get(30), others.whole.get(30), others.folds.get(30));
        assertThat(bytes(more.train(SETTINGS))).isNotEqualTo(before);
    }

    @Test
    void withoutMarkedSoundsOfBothKindsItIsRefusedInASentence() {
        for (int left = 0; left < 3; left++) {
            boolean noTones = left != 1;
            boolean noCrackles = left != 0;
            Recordings some = new Recordings();
            Recordings all = recordings(1);
            for (int i = 0; i < all.items.size(); i++) {
                TrainingItem item = all.items.get(i);
                List<MarkedSound> marked = item.marked().stream()
                        .filter(m -> !(noTones && m.continuous()) && !(noCrackles && m.discontinuous()))
                        .toList();
                some.add(
                        item(item.patient(), item.label(), false, true, marked, item.sounds()),
                        all.frames.get(i),
                        all.whole.get(i),
                        all.folds.get(i));
            }
            // Marked where nothing is learnt from, so not enough.
            TrainingItem poor = all.items.get(0);
            List<MarkedSound> both = List.of(new MarkedSound(1, 2, true, true));
            some.add(
                    item(poor.patient(), RecordingClass.POOR_QUALITY, false, true, both, poor.sounds()),
                    all.frames.get(0),
                    all.whole.get(0),
                    all.folds.get(0));
            assertThatThrownBy(() -> some.train(SETTINGS))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("none of one kind")
                    .hasMessageContaining("leave 'events' out");
        }
    }

    @Test
    void onlyTheFactsThatTheRecipeNamesAreLearntFrom() {
        EventModel model = recordings(1)
                .train(new BlendSettings(List.of("net.*", "-net.*.middle", "length"), SETTINGS.learners()));
        List<String> used = Arrays.stream(model.discontinuous().columns())
                .mapToObj(EventFacts.NAMES::get)
                .toList();
        assertThat(used)
                .hasSize(1 + 2 * 9)
                .contains("length", "net.continuous.most")
                .doesNotContain("tones.count");
        assertThat(model.continuous().columns()).isEqualTo(model.discontinuous().columns());
    }

    @Test
    void unknownFactsAndRecordingsInWhichNothingStandsOutAreRefusedInASentence() {
        BlendSettings unknown = new BlendSettings(List.of("colour.*"), SETTINGS.learners());
        assertThatThrownBy(() -> recordings(1).train(unknown))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("facts that are not known");
        Recordings silent = new Recordings();
        Recordings all = recordings(1);
        for (int i = 0; i < all.items.size(); i++) {
            TrainingItem item = all.items.get(i);
            float[][] nothing = new float[2][FRAMES];
            Arrays.fill(nothing[0], -9);
            Arrays.fill(nothing[1], -9);
            silent.add(
                    item(item.patient(), item.label(), false, true, item.marked(), List.of()),
                    nothing,
                    all.whole.get(i),
                    all.folds.get(i));
        }
        assertThatThrownBy(() -> silent.train(SETTINGS))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no stretch stands out");
    }

    /** Where what stands out is never what was marked, the model tells nothing rather than anything. */
    @Test
    void whereNothingWasRightlyFoundNothingIsTold() {
        Recordings far = markedNowhereNear();
        EventModel model = far.train(SETTINGS);
        assertThat(model.continuousLimit().from()).isEqualTo(1);
        assertThat(model.discontinuousLimit().from()).isEqualTo(1);
        assertThat(model.heard(
                        far.frames.get(0),
                        far.items.get(0).image(),
                        far.items.get(0).sounds(),
                        far.whole.get(0)))
                .isEqualTo(HeardEvents.NONE);
    }
}
