package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.sound.MeasuredSound;

/**
 * Events that Lungwort found by itself, where nobody marked any: the sounds that an examination gives as evidence, those of one kind that follow one another closely taken as one
 * event, as annotators mark a run of crackles or a wheeze with a break in it.
 */
final class OwnSegmentation {
    static final String CONTINUOUS = "continuous";
    static final String DISCONTINUOUS = "discontinuous";

    /** Pieces of a wheeze that lie closer than this are one, in seconds. */
    static final double CONTINUOUS_GAP_SECONDS = 0.15;

    /** Crackles that follow one another within this are one run, in seconds. */
    static final double DISCONTINUOUS_GAP_SECONDS = 0.3;

    /** Fewer crackles are no run. */
    static final int MIN_CRACKLES = 3;

    private OwnSegmentation() {}

    /** @param evidence in order of time */
    static List<EventSpan> found(String recording, List<MeasuredSound> evidence) {
        List<EventSpan> found = new ArrayList<>();
        found.addAll(runs(recording, evidence, true, CONTINUOUS_GAP_SECONDS, 1));
        found.addAll(runs(recording, evidence, false, DISCONTINUOUS_GAP_SECONDS, MIN_CRACKLES));
        return found;
    }

    private static List<EventSpan> runs(
            String recording, List<MeasuredSound> evidence, boolean continuous, double gapSeconds, int least) {
        List<EventSpan> runs = new ArrayList<>();
        double start = 0;
        double end = Double.NEGATIVE_INFINITY;
        int count = 0;
        for (MeasuredSound sound : evidence) {
            if (sound.kind().continuous() != continuous) {
                continue;
            }
            if (sound.startSeconds() - end > gapSeconds) {
                add(runs, recording, start, end, continuous, count >= least);
                start = sound.startSeconds();
                count = 0;
            }
            end = Math.max(end, sound.endSeconds());
            count++;
        }
        add(runs, recording, start, end, continuous, count >= least);
        return runs;
    }

    private static void add(
            List<EventSpan> runs, String recording, double start, double end, boolean continuous, boolean enough) {
        if (enough && end > start) {
            runs.add(new EventSpan(recording, start, end, continuous ? CONTINUOUS : DISCONTINUOUS));
        }
    }

    /** The annotated events of both kinds; one that holds both counts for each. */
    static List<EventSpan> annotated(AnnotatedRecording r) {
        List<EventSpan> spans = new ArrayList<>();
        for (AnnotatedEvent e : r.events()) {
            if (e.label().continuous()) {
                spans.add(new EventSpan(r.id(), e.startSeconds(), e.endSeconds(), CONTINUOUS));
            }
            if (e.label().discontinuous()) {
                spans.add(new EventSpan(r.id(), e.startSeconds(), e.endSeconds(), DISCONTINUOUS));
            }
        }
        return spans;
    }
}
