package lungwort.dataset;

import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * One recording of a public database with what its annotators said.
 *
 * @param id file name without its ending, unique within a database
 * @param audio where the audio is, or would be
 * @param audioBytes size of the audio file in bytes; {@link #NO_AUDIO} if it is not there
 * @param durationSeconds length of the audio by its header, in seconds; empty if it is not there
 * @param patient the database's number of the person; folds keep a patient together
 * @param site the database's code for the spot on the chest
 * @param ageYears age in years; empty if unknown
 * @param device the database's code for the stethoscope or microphone
 * @param split side of the official split
 * @param events annotated events in order of time; none in recordings of poor quality
 * @param label the label of the whole recording; where the database has none, what its events add up to
 */
public record AnnotatedRecording(
        String id,
        Path audio,
        long audioBytes,
        OptionalDouble durationSeconds,
        String patient,
        String site,
        OptionalDouble ageYears,
        String device,
        Split split,
        List<AnnotatedEvent> events,
        RecordingLabel label) {
    /** {@link #audioBytes} of a recording whose audio file is not in the folder. */
    public static final long NO_AUDIO = -1;

    public AnnotatedRecording {
        events = events.stream()
                .sorted(Comparator.comparingDouble(AnnotatedEvent::startSeconds)
                        .thenComparingDouble(AnnotatedEvent::endSeconds))
                .toList();
    }

    /** False if only the annotation is in the folder. */
    public boolean hasAudio() {
        return audioBytes != NO_AUDIO;
    }
}
