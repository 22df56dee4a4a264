package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;
import lungwort.classify.HeardEvent;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.sound.MeasuredSound;

/**
 * Events that Lungwort found by itself, where nobody marked any: the single sounds that a model hears, or, of a model that looks for none, the sounds that an examination gives as evidence. There a phase of a breath in which a few crackles lie is one event,
 * as crackles are described by the phase they fall in; tones that follow one another closely are one event, with a little time on either side, as annotators mark a wheeze with a
 * break in it.
 *
 * <p>How measured sounds are joined was chosen by folds on SPRSound's training set, where it gives F by the collar 0.20 for crackles and 0.29 for tones. Worse there: runs of crackles
 * (0.10), phases with tones (0.08), windows that the model judged, joined where they touch (0.02 and 0.01).
 */
final class OwnSegmentation {
    static final String CONTINUOUS = "continuous";
    static final String DISCONTINUOUS = "discontinuous";

    /** Tones that follow within this are one, in seconds. */
    private static final double GAP_SECONDS = 0.5;

    /** Added to a tone on either side, in seconds. */
    private static final double EDGE_SECONDS = 0.1;

    /** Fewer crackles in a phase are no event. */
    private static final int LEAST_CRACKLES = 3;

    private OwnSegmentation() {}

    /** @param events that an examination tells */
    static List<EventSpan> found(String recording, List<HeardEvent> events) {
        return events.stream()
                .map(e -> new EventSpan(
                        recording, e.startSeconds(), e.endSeconds(), e.continuous() ? CONTINUOUS : DISCONTINUOUS))
                .toList();
    }

    /**
     * @param evidence in order of time
     * @param phases of the breaths; pauses hold no event
     */
    static List<EventSpan> found(String recording, List<MeasuredSound> evidence, List<PhaseSpan> phases) {
        List<EventSpan> found = new ArrayList<>();
        double start = 0;
        double end = Double.NaN;
        for (MeasuredSound sound : evidence) {
            if (!sound.kind().continuous()) {
                continue;
            }
            if (!(sound.startSeconds() - end <= GAP_SECONDS)) {
                addTone(found, recording, start, end);
                start = sound.startSeconds();
                end = sound.endSeconds();
            }
            end = Math.max(end, sound.endSeconds());
        }
        addTone(found, recording, start, end);
        phases.stream()
                .filter(phase -> phase.phase() != BreathPhase.PAUSE && crackles(evidence, phase) >= LEAST_CRACKLES)
                .forEach(phase ->
                        found.add(new EventSpan(recording, phase.startSeconds(), phase.endSeconds(), DISCONTINUOUS)));
        return found;
    }

    /** @param end NaN before the first tone */
    private static void addTone(List<EventSpan> found, String recording, double start, double end) {
        if (!Double.isNaN(end)) {
            found.add(new EventSpan(recording, Math.max(0, start - EDGE_SECONDS), end + EDGE_SECONDS, CONTINUOUS));
        }
    }

    private static long crackles(List<MeasuredSound> evidence, PhaseSpan phase) {
        return evidence.stream()
                .filter(sound -> !sound.kind().continuous())
                .mapToDouble(sound -> (sound.startSeconds() + sound.endSeconds()) / 2)
                .filter(middle -> middle >= phase.startSeconds() && middle < phase.endSeconds())
                .count();
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
