package lungwort.dataset;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import lungwort.BadInput;

/** What every annotation must satisfy, whichever database it is from. */
final class EventChecks {
    /** Annotators' tools round: an end this little after the audio's is clipped to it, in seconds [C]. */
    static final double MAX_OVERRUN_SECONDS = 0.5;

    private EventChecks() {}

    /** An event whose times make sense on their own, or a sentence. */
    static AnnotatedEvent event(String place, double startSeconds, double endSeconds, EventLabel label) {
        if (!(startSeconds >= 0) || !(endSeconds > startSeconds) || Double.isInfinite(endSeconds)) {
            throw BadInput.of(
                    "%s: it lasts from %s to %s s, but an event must start at 0 s or later and end after its start; correct it or unpack the download again.",
                    place, seconds(startSeconds), seconds(endSeconds));
        }
        return new AnnotatedEvent(startSeconds, endSeconds, label);
    }

    /**
     * Events clipped to the audio.
     *
     * @throws BadInput if one ends more than {@value #MAX_OVERRUN_SECONDS} s after the audio: annotation and audio are not of the same recording
     */
    static List<AnnotatedEvent> withinAudio(
            String place, List<AnnotatedEvent> events, OptionalDouble durationSeconds, Warnings warnings) {
        warnOfOverlap(place, events, warnings);
        if (durationSeconds.isEmpty()) {
            return events;
        }
        double end = durationSeconds.getAsDouble();
        List<AnnotatedEvent> inside = new ArrayList<>();
        for (AnnotatedEvent event : events) {
            if (event.startSeconds() >= end || event.endSeconds() > end + MAX_OVERRUN_SECONDS) {
                throw BadInput.of(
                        "%s: an event from %s to %s s lies after the end of the audio (%s s): the two are not of the same recording, or the audio was cut; unpack the download again.",
                        place, seconds(event.startSeconds()), seconds(event.endSeconds()), seconds(end));
            }
            warnings.countIf(event.endSeconds() > end + 1e-9, "events clipped to the end of their audio", place);
            inside.add(new AnnotatedEvent(event.startSeconds(), Math.min(end, event.endSeconds()), event.label()));
        }
        return inside;
    }

    private static void warnOfOverlap(String place, List<AnnotatedEvent> events, Warnings warnings) {
        List<AnnotatedEvent> sorted = events.stream()
                .sorted(Comparator.comparingDouble(AnnotatedEvent::startSeconds))
                .toList();
        for (int i = 1; i < sorted.size(); i++) {
            boolean overlaps = sorted.get(i).startSeconds() < sorted.get(i - 1).endSeconds() - 1e-9;
            warnings.countIf(overlaps, "events that begin before the one before has ended", place);
        }
    }

    /** What events add up to. */
    static RecordingLabel label(List<AnnotatedEvent> events) {
        return RecordingLabel.of(
                events.stream().anyMatch(e -> e.label().continuous()),
                events.stream().anyMatch(e -> e.label().discontinuous()));
    }

    private static String seconds(double value) {
        return Double.isFinite(value) ? String.format(Locale.ROOT, "%.3f", value) : String.valueOf(value);
    }
}
