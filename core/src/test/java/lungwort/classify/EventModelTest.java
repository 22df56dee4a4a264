package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import lungwort.BadInput;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;
import org.junit.jupiter.api.Test;

class EventModelTest {
    private static final double[] WHOLE = {0.2, 0.3, 0.1, 0.2, 0.2};

    /** Looked at for edges only. */
    private static final float[][] IMAGE = {};

    private static List<double[]> chosen(double[][] spansWithProbability) {
        List<TimeSpan> spans = Arrays.stream(spansWithProbability)
                .map(s -> new TimeSpan(s[0], s[1]))
                .toList();
        double[] p = Arrays.stream(spansWithProbability).mapToDouble(s -> s[2]).toArray();
        return EventModel.chosen(spans, p, true).stream()
                .map(e -> new double[] {e.startSeconds(), e.endSeconds(), e.probability()})
                .toList();
    }

    @Test
    void theShareIsWhatBothCoverOverWhatEitherCovers() {
        assertThat(EventModel.share(0, 2, 1, 4)).isEqualTo(0.25, within(1e-12));
        assertThat(EventModel.share(1, 4, 0, 2)).isEqualTo(0.25, within(1e-12));
        assertThat(EventModel.share(0, 4, 1, 2)).isEqualTo(0.25, within(1e-12));
        assertThat(EventModel.share(1, 2, 1, 2)).isEqualTo(1);
        assertThat(EventModel.share(0, 1, 1, 2)).isZero();
        assertThat(EventModel.share(0, 1, 3, 4)).isZero();
    }

    /** A share of a fifth is another sound still, more is the same one. */
    @Test
    void ofStretchesThatShareMoreThanAFifthTheMostProbableStays() {
        assertThat(chosen(new double[][] {{0, 3, 0.4}, {2, 5, 0.9}}))
                .containsExactly(new double[] {2, 5, 0.9}, new double[] {0, 3, 0.4});
        assertThat(chosen(new double[][] {{0, 3, 0.4}, {1.9375, 5, 0.9}})).containsExactly(new double[] {1.9375, 5, 0.9
        });
    }

    /** The middle one gives way to the first, and so takes nothing from the third. */
    @Test
    void whatGaveWayTakesNothingAway() {
        assertThat(chosen(new double[][] {{0, 2, 0.9}, {1, 3, 0.8}, {2, 4, 0.7}}))
                .containsExactly(new double[] {0, 2, 0.9}, new double[] {2, 4, 0.7});
        assertThat(chosen(new double[][] {{0, 2, 0.7}, {1, 3, 0.8}, {2, 4, 0.7}}))
                .containsExactly(new double[] {1, 3, 0.8});
    }

    @Test
    void ofTwoAsProbableTheEarlierStays() {
        assertThat(chosen(new double[][] {{0, 2, 0.5}, {0, 3, 0.5}, {1, 3, 0.5}, {5, 6, 0.5}}))
                .containsExactly(new double[] {0, 2, 0.5}, new double[] {5, 6, 0.5});
        assertThat(chosen(new double[0][])).isEmpty();
    }

    /** Half of what either covers, as {@code score.EventMatching}; a sound that is both is found by either kind. */
    @Test
    void aStretchFindsASoundOfItsKindOfWhichItSharesHalf() {
        List<MarkedSound> marked = List.of(new MarkedSound(0, 2, true, false), new MarkedSound(4, 5, true, true));
        assertThat(EventModel.finds(new TimeSpan(0, 1), marked, true)).isTrue();
        assertThat(EventModel.finds(new TimeSpan(0, 0.9), marked, true)).isFalse();
        assertThat(EventModel.finds(new TimeSpan(0, 4), marked, true)).isTrue();
        assertThat(EventModel.finds(new TimeSpan(0, 2), marked, false)).isFalse();
        assertThat(EventModel.finds(new TimeSpan(4, 5), marked, true)).isTrue();
        assertThat(EventModel.finds(new TimeSpan(4, 5), marked, false)).isTrue();
        assertThat(EventModel.finds(new TimeSpan(4, 5), List.of(), true)).isFalse();
    }

    /** Of four stretches three are of one sound: (1.0, 0.6), (1.2, 0.3) and (0.7, 0.1) as starts and probabilities; the fourth shares less than half with the most probable. */
    @Test
    void whatIsChosenBeginsAndEndsAtTheMeanOfThoseThatCoverIt() {
        List<TimeSpan> spans =
                List.of(new TimeSpan(0.7, 1.8), new TimeSpan(1, 2), new TimeSpan(1.2, 2.1), new TimeSpan(1.4, 1.6));
        List<HeardEvent> voted = EventModel.voted(spans, new double[] {0.1, 0.6, 0.3, 0.5}, false);
        assertThat(voted).hasSize(1);
        assertThat(voted.get(0).startSeconds()).isEqualTo((0.07 + 0.6 + 0.36) / 1, within(1e-12));
        assertThat(voted.get(0).endSeconds()).isEqualTo((0.18 + 1.2 + 0.63) / 1, within(1e-12));
        assertThat(voted.get(0).probability()).isEqualTo(0.6);
        assertThat(voted.get(0).continuous()).isFalse();
        assertThat(EventModel.voted(spans.subList(1, 2), new double[] {0}, true))
                .containsExactly(new HeardEvent(1, 2, true, 0));
    }

    private static BoostedTrees always(double value) {
        TreeTable.Builder table = new TreeTable.Builder();
        table.startTree();
        table.leaf();
        return new BoostedTrees(2, new double[] {value}, table.build(), new short[] {0}, new short[] {1});
    }

    /** What is told is the same stretch as without edges, moved by the numbers of its own kind. */
    @Test
    void edgesAreMovedForEachKindByItself() {
        Blend continuous = by("net.continuous.mean", 0, true, true);
        Blend discontinuous = by("net.discontinuous.mean", 0, true, true);
        float[][] image = new float[lungwort.feature.MelImage.ROWS][200];
        EventModel.Edges edges = new EventModel.Edges(
                new EdgeShifts(always(-0.1), always(0.1)), new EdgeShifts(always(0.05), always(-0.05)));
        List<HeardEvent> moved = new EventModel(
                        continuous, discontinuous, EventLimit.from(0.5), EventLimit.from(0.5), edges)
                .heard(frames(), image, List.of(), WHOLE)
                .sure();
        assertThat(moved).extracting(HeardEvent::continuous).contains(true, false);
        assertThat(moved).anySatisfy(e -> {
            assertThat(e.continuous()).isFalse();
            assertThat(e.startSeconds()).isEqualTo(2.05, within(1e-9));
            assertThat(e.endSeconds()).isEqualTo(2.35, within(1e-9));
        });
        assertThat(moved).anySatisfy(e -> {
            assertThat(e.continuous()).isTrue();
            assertThat(e.startSeconds()).isEqualTo(0.5, within(1e-9));
            assertThat(e.endSeconds()).isEqualTo(0.9, within(1e-9));
        });
    }

    /** A blend by one fact alone, which it thinks the more like a sound the larger (or smaller) it is. */
    private static Blend by(String fact, double middle, boolean larger) {
        return by(fact, middle, larger, false);
    }

    private static Blend by(String fact, double middle, boolean larger, boolean withEdges) {
        SplittableRandom random = new SplittableRandom(3);
        float[][] x = new float[400][EventModel.names(withEdges).size()];
        int[] y = new int[x.length];
        int column = EventFacts.NAMES.indexOf(fact);
        for (int i = 0; i < x.length; i++) {
            x[i][column] = (float) (middle + random.nextGaussian());
            y[i] = x[i][column] > middle + 0.3 * random.nextGaussian() == larger ? 1 : 0;
        }
        double[] weight = new double[x.length];
        Arrays.fill(weight, 1);
        LearnerSettings linear = new LearnerSettings("linear-softmax", Map.of("ridge", 1.0, "iterations", 50.0));
        return Blend.fit(x, y, weight, 2, new int[] {column}, new BlendSettings(List.of(), List.of(linear)), 1);
    }

    private static float[][] frames() {
        float[][] frames = new float[2][200];
        Arrays.fill(frames[0], -9);
        Arrays.fill(frames[1], -9);
        Arrays.fill(frames[0], 20, 60, 0.5f);
        Arrays.fill(frames[0], 30, 40, 1.5f);
        Arrays.fill(frames[1], 20, 60, 0.5f);
        Arrays.fill(frames[1], 100, 120, 1.5f);
        return frames;
    }

    /** Each kind by its own learner and its own limit, told from that limit on; by time, and of two at once the continuous one first. */
    @Test
    void eachKindIsToldByItsOwnLearnerAndLimit() {
        Blend continuous = by("net.continuous.mean", 0, true);
        Blend discontinuous = by("net.discontinuous.mean", 0, true);
        List<HeardEvent> all = sure(continuous, discontinuous, 0, 0);
        EventFacts facts = new EventFacts(frames(), List.of(), WHOLE);
        double inner = p(continuous, facts, 0.6, 0.8);
        double outer = p(continuous, facts, 0.4, 1.2);
        assertThat(inner).as("the louder part is more like a sound").isGreaterThan(outer);
        // The part within covers a quarter of the whole, so that only one of the two is left.
        assertThat(all)
                .containsExactly(
                        new HeardEvent(0.4, 1.2, false, p(discontinuous, facts, 0.4, 1.2)),
                        new HeardEvent(0.6, 0.8, true, inner),
                        new HeardEvent(2, 2.4, true, p(continuous, facts, 2, 2.4)),
                        new HeardEvent(2, 2.4, false, p(discontinuous, facts, 2, 2.4)));
        assertThat(all).filteredOn(HeardEvent::continuous).allMatch(e -> e.probability() < 1);

        double most = all.stream()
                .filter(e -> !e.continuous())
                .mapToDouble(HeardEvent::probability)
                .max()
                .orElseThrow();
        assertThat(sure(continuous, discontinuous, inner, most)).containsExactly(all.get(1), all.get(3));
        assertThat(sure(continuous, discontinuous, Math.nextUp(inner), Math.nextUp(most)))
                .isEmpty();
        assertThat(all).isSortedAccordingTo(Comparator.comparingDouble(HeardEvent::startSeconds));
    }

    /** Of the tones one is the most probable; another, below the limit, is told by its share of that, and no longer by one just higher. Bursts are told by their own limit. */
    @Test
    void thoseNearlyAsProbableAsTheMostProbableAreLikely() {
        Blend continuous = by("net.continuous.mean", 0, true);
        Blend discontinuous = by("net.discontinuous.mean", 0, true);
        List<HeardEvent> tones = sure(continuous, discontinuous, 0, 1).stream()
                .filter(HeardEvent::continuous)
                .sorted(Comparator.comparingDouble(HeardEvent::probability).reversed())
                .toList();
        assertThat(tones).hasSizeGreaterThan(1);
        double most = tones.get(0).probability();
        double less = tones.get(1).probability();
        double share = less / most;
        for (double from : new double[] {most, 1}) {
            HeardEvents heard = heard(continuous, discontinuous, new EventLimit(from, Math.nextDown(share)));
            List<HeardEvent> told = new ArrayList<>(heard.sure());
            told.addAll(heard.likely());
            assertThat(told).containsExactlyInAnyOrder(tones.get(0), tones.get(1));
            assertThat(heard.sure()).hasSize(from <= most ? 1 : 0);
            HeardEvents fewer = heard(continuous, discontinuous, new EventLimit(from, Math.min(1, share * 1.0001)));
            assertThat(fewer.where(true, true)).containsExactly(tones.get(0));
        }
    }

    private static HeardEvents heard(Blend continuous, Blend discontinuous, EventLimit ofContinuous) {
        return new EventModel(continuous, discontinuous, ofContinuous, EventLimit.from(1))
                .heard(frames(), IMAGE, List.of(), WHOLE);
    }

    private static List<HeardEvent> sure(
            Blend continuous, Blend discontinuous, double continuousFrom, double discontinuousFrom) {
        HeardEvents heard = new EventModel(
                        continuous, discontinuous, EventLimit.from(continuousFrom), EventLimit.from(discontinuousFrom))
                .heard(frames(), IMAGE, List.of(), WHOLE);
        assertThat(heard.likely()).isEmpty();
        return heard.sure();
    }

    private static double p(Blend blend, EventFacts facts, double start, double end) {
        return blend.probabilities(facts.of(new TimeSpan(start, end)))[1];
    }

    @Test
    void whereNothingStandsOutNothingIsHeard() {
        float[][] silent = {new float[50], new float[50]};
        Arrays.fill(silent[0], -5);
        Arrays.fill(silent[1], -5);
        List<MeasuredSound> none = List.of();
        EventModel model = new EventModel(
                by("length", 1, true), by("length", 1, true), new EventLimit(0, 0.1), new EventLimit(0.5, 0.1));
        assertThat(model.heard(silent, IMAGE, none, WHOLE)).isEqualTo(HeardEvents.NONE);
    }

    @Test
    void limitsBeyondZeroAndOneAreRefused() {
        for (double limit : new double[] {-0.01, 1.01, Double.NaN}) {
            assertThatThrownBy(() -> EventLimit.from(limit))
                    .isInstanceOf(BadInput.class)
                    .hasMessageContaining("limits are not between 0 and 1");
        }
        for (double share : new double[] {-0.01, 0, Double.NaN}) {
            assertThatThrownBy(() -> new EventLimit(0.5, share)).isInstanceOf(BadInput.class);
        }
        assertThat(EventLimit.from(1).sure(1)).isTrue();
    }

    @Test
    void anEventHasALengthAndAProbability() {
        assertThat(new HeardEvent(1, 1.5, true, 1).durationSeconds()).isEqualTo(0.5);
        assertThatThrownBy(() -> new HeardEvent(1, 1, true, 0.5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeardEvent(-0.1, 1, true, 0.5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeardEvent(1, 2, true, Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeardEvent(1, 2, true, 1.1)).isInstanceOf(IllegalArgumentException.class);
    }
}
