package lungwort.classify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;

/**
 * Finds each extra sound in a recording: judges {@link EventCandidates} by {@link EventFacts}, and of those that overlap keeps the one most like a marked sound (greedy non-maximum suppression, as in the
 * detection of objects in pictures: Felzenszwalb et al. 2010).
 *
 * @param continuous two classes: whether a stretch is a marked continuous sound
 * @param discontinuous the same for a discontinuous one
 * @param continuousFrom from this probability on a continuous sound is told, in [0, 1]
 * @param discontinuousFrom from this probability on a discontinuous sound is told, in [0, 1]
 */
record EventModel(Blend continuous, Blend discontinuous, double continuousFrom, double discontinuousFrom) {
    /** Two stretches that share more of what either covers are the same sound. */
    static final double SAME_SHARE = 0.2;

    /** A stretch that shares so much of what either covers with a marked sound has found it ({@code score.EventMatching}'s rule of half overlap). */
    static final double FOUND_SHARE = 0.5;

    EventModel {
        if (!(continuousFrom >= 0 && continuousFrom <= 1) || !(discontinuousFrom >= 0 && discontinuousFrom <= 1)) {
            throw Numbers.damaged("its events' limits are not between 0 and 1");
        }
    }

    /**
     * The sounds found in one recording, in order of time.
     *
     * @param frames {@link NetLook#frames}
     * @param sounds measured in it
     * @param whole class probabilities of the recording by itself
     */
    List<HeardEvent> heard(float[][] frames, List<MeasuredSound> sounds, double[] whole) {
        List<TimeSpan> spans = EventCandidates.of(frames, sounds);
        EventFacts facts = new EventFacts(frames, sounds, whole);
        List<float[]> rows = spans.stream().map(facts::of).toList();
        List<HeardEvent> heard = new ArrayList<>(told(spans, rows, true));
        heard.addAll(told(spans, rows, false));
        heard.sort(Comparator.comparingDouble(HeardEvent::startSeconds).thenComparing(e -> !e.continuous()));
        return List.copyOf(heard);
    }

    private List<HeardEvent> told(List<TimeSpan> spans, List<float[]> rows, boolean ofContinuous) {
        Blend blend = ofContinuous ? continuous : discontinuous;
        double from = ofContinuous ? continuousFrom : discontinuousFrom;
        double[] p =
                rows.stream().mapToDouble(row -> blend.probabilities(row)[1]).toArray();
        return chosen(spans, p, ofContinuous).stream()
                .filter(e -> e.probability() >= from)
                .toList();
    }

    /**
     * Of stretches that overlap, the most probable.
     *
     * @param spans in order of time
     * @param p probability of each
     * @return most probable first
     */
    static List<HeardEvent> chosen(List<TimeSpan> spans, double[] p, boolean ofContinuous) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < p.length; i++) {
            order.add(i);
        }
        // A stable sort: of two as probable the earlier counts, whatever the machine.
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
