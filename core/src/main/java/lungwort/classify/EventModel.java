package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;
import org.jspecify.annotations.Nullable;

/**
 * Finds each extra sound in a recording: judges {@link EventCandidates} by {@link EventFacts}, and of those that overlap keeps the one most like a marked sound (greedy non-maximum suppression, as in the
 * detection of objects in pictures: Felzenszwalb et al. 2010). With edges, candidates are first moved to where a listener would mark them, and what is kept begins and ends at the mean of all that cover it, the probable ones
 * counting most (box voting: Gidaris and Komodakis, ICCV 2015).
 *
 * @param continuous two classes: whether a stretch is a marked continuous sound
 * @param discontinuous the same for a discontinuous one
 * @param continuousLimit from when on a continuous sound is told
 * @param discontinuousLimit from when on a discontinuous sound is told
 * @param edges null to leave candidates where they were found
 */
record EventModel(
        Blend continuous,
        Blend discontinuous,
        EventLimit continuousLimit,
        EventLimit discontinuousLimit,
        @Nullable Edges edges) {
    /** Two stretches that share more of what either covers are the same sound. */
    static final double SAME_SHARE = 0.2;

    /** A stretch that shares so much of what either covers with a marked sound has found it ({@code score.EventMatching}'s rule of half overlap). */
    static final double FOUND_SHARE = 0.5;

    /** Of stretches without any probability each still counts alike. */
    private static final double LEAST_WEIGHT = 1e-9;

    /** Without edges. */
    EventModel(Blend continuous, Blend discontinuous, EventLimit continuousLimit, EventLimit discontinuousLimit) {
        this(continuous, discontinuous, continuousLimit, discontinuousLimit, null);
    }

    /** How the edges of continuous sounds are moved, and how those of discontinuous ones are. */
    record Edges(EdgeShifts continuous, EdgeShifts discontinuous) {
        EdgeShifts of(boolean ofContinuous) {
            return ofContinuous ? continuous : discontinuous;
        }
    }

    /** What the learners see of a stretch: its facts, and with edges those of its edges. */
    static List<String> names(boolean withEdges) {
        List<String> names = new ArrayList<>(EventFacts.NAMES);
        if (withEdges) {
            names.addAll(EventEdgeFacts.NAMES);
        }
        return names;
    }

    /**
     * The same as numbers; the facts alone where there are none of edges.
     *
     * @param own {@link EventFacts#of} the stretch, which are the same for either kind
     */
    private static float[] row(float[] own, @Nullable EventEdgeFacts edges, boolean ofContinuous, TimeSpan span) {
        if (edges == null) {
            return own;
        }
        float[] more = edges.of(ofContinuous, span);
        float[] row = Arrays.copyOf(own, own.length + more.length);
        System.arraycopy(more, 0, row, own.length, more.length);
        return row;
    }

    /**
     * The sounds found in one recording.
     *
     * @param frames {@link NetLook#frames}
     * @param image of the recording; looked at for edges only
     * @param sounds measured in it
     * @param whole class probabilities of the recording by itself
     */
    HeardEvents heard(float[][] frames, float[][] image, List<MeasuredSound> sounds, double[] whole) {
        List<TimeSpan> spans = EventCandidates.of(frames, sounds);
        EventFacts own = new EventFacts(frames, sounds, whole);
        List<float[]> facts = spans.stream().map(own::of).toList();
        EventEdgeFacts ends = edges == null ? null : new EventEdgeFacts(frames, image, sounds);
        List<HeardEvent> sure = new ArrayList<>();
        List<HeardEvent> likely = new ArrayList<>();
        for (boolean ofContinuous : new boolean[] {true, false}) {
            EventLimit limit = ofContinuous ? continuousLimit : discontinuousLimit;
            List<HeardEvent> found = found(spans, facts, ends, ofContinuous);
            double most = found.isEmpty() ? 0 : found.get(0).probability();
            for (HeardEvent event : found) {
                if (limit.sure(event.probability())) {
                    sure.add(event);
                } else if (limit.likely(event.probability(), most)) {
                    likely.add(event);
                }
            }
        }
        return new HeardEvents(sure, likely);
    }

    /** Most probable first. */
    private List<HeardEvent> found(
            List<TimeSpan> spans, List<float[]> facts, @Nullable EventEdgeFacts ends, boolean ofContinuous) {
        Blend blend = ofContinuous ? continuous : discontinuous;
        List<float[]> rows = rows(spans, facts, ends, ofContinuous);
        double[] p =
                rows.stream().mapToDouble(row -> blend.probabilities(row)[1]).toArray();
        return edges == null || ends == null
                ? chosen(spans, p, ofContinuous)
                : voted(moved(edges.of(ofContinuous), spans, rows, ends.seconds()), p, ofContinuous);
    }

    /** What the learners of one kind see of each stretch. */
    static List<float[]> rows(
            List<TimeSpan> spans, List<float[]> facts, @Nullable EventEdgeFacts edges, boolean ofContinuous) {
        return IntStream.range(0, spans.size())
                .mapToObj(i -> row(facts.get(i), edges, ofContinuous, spans.get(i)))
                .toList();
    }

    /** Each stretch where it is to be. */
    static List<TimeSpan> moved(EdgeShifts shifts, List<TimeSpan> spans, List<float[]> rows, double seconds) {
        return IntStream.range(0, spans.size())
                .mapToObj(i -> shifts.moved(spans.get(i), rows.get(i), seconds))
                .toList();
    }

    /**
     * Those that are {@link #chosen}, each from the mean start to the mean end of all stretches of which it shares at least half of what either covers, weighed by their probabilities.
     *
     * @param spans of any order
     * @param p probability of each
     * @return most probable first
     */
    static List<HeardEvent> voted(List<TimeSpan> spans, double[] p, boolean ofContinuous) {
        return chosen(spans, p, ofContinuous).stream()
                .map(chosen -> mean(chosen, spans, p))
                .toList();
    }

    private static HeardEvent mean(HeardEvent chosen, List<TimeSpan> spans, double[] p) {
        double start = 0;
        double end = 0;
        double sum = 0;
        for (int i = 0; i < p.length; i++) {
            TimeSpan span = spans.get(i);
            if (share(span.startSeconds(), span.endSeconds(), chosen.startSeconds(), chosen.endSeconds())
                    >= FOUND_SHARE) {
                double weight = Math.max(LEAST_WEIGHT, p[i]);
                start += weight * span.startSeconds();
                end += weight * span.endSeconds();
                sum += weight;
            }
        }
        return new HeardEvent(start / sum, end / sum, chosen.continuous(), chosen.probability());
    }

    /**
     * Of stretches that overlap, the most probable.
     *
     * @param spans of any order; of two as probable the earlier in the list counts
     * @param p probability of each
     * @return most probable first
     */
    static List<HeardEvent> chosen(List<TimeSpan> spans, double[] p, boolean ofContinuous) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < p.length; i++) {
            order.add(i);
        }
        // A stable sort, so that the choice is the same on every machine.
        order.sort(Comparator.comparingDouble(i -> -p[i]));
        List<HeardEvent> chosen = new ArrayList<>();
        for (int i : order) {
            TimeSpan span = spans.get(i);
            if (chosen.stream()
                    .allMatch(e -> share(span.startSeconds(), span.endSeconds(), e.startSeconds(), e.endSeconds())
                            <= SAME_SHARE)) {
                chosen.add(new HeardEvent(span.startSeconds(), span.endSeconds(), ofContinuous, p[i]));
            }
        }
        return chosen;
    }

    /** Time that two stretches share over the time that either covers, in [0, 1]. */
    static double share(double startA, double endA, double startB, double endB) {
        double shared = Math.min(endA, endB) - Math.max(startA, startB);
        return Math.max(0, shared) / (Math.max(endA, endB) - Math.min(startA, startB));
    }

    /** Whether a stretch has found one of the sounds of its kind. */
    static boolean finds(TimeSpan span, List<MarkedSound> marked, boolean ofContinuous) {
        return marked.stream()
                .filter(sound -> sound.is(ofContinuous))
                .anyMatch(sound -> finds(span.startSeconds(), span.endSeconds(), sound));
    }

    /** Whether a stretch has found a sound, whatever its kind. */
    static boolean finds(double startSeconds, double endSeconds, MarkedSound sound) {
        return share(startSeconds, endSeconds, sound.startSeconds(), sound.endSeconds()) >= FOUND_SHARE;
    }
}
