package lungwort.classify;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One recording to learn from.
 *
 * @param patient whose it is; folds keep a patient together
 * @param segments features of each marked segment, in order of time
 * @param classes class of each marked segment
 * @param windows features of the windows that cover the recording, in order of time, at least one
 * @param recording features of the whole recording
 * @param label what the recording is called; null if nobody said
 */
@SuppressWarnings("ArrayRecordComponent") // numbers on their way to a trainer, never compared
public record TrainingItem(
        String patient,
        float[][] segments,
        List<SegmentClass> classes,
        float[][] windows,
        float[] recording,
        @Nullable RecordingClass label) {
    public TrainingItem {
        classes = List.copyOf(classes);
        if (segments.length != classes.size() || windows.length == 0) {
            throw new IllegalArgumentException(
                    "%d segments, %d classes, %d windows".formatted(segments.length, classes.size(), windows.length));
        }
    }
}
