package lungwort.classify;

import java.util.List;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;
import org.jspecify.annotations.Nullable;

/**
 * One recording to learn from.
 *
 * @param patient whose it is; folds keep a patient together
 * @param segments features of each marked segment, in order of time
 * @param classes class of each marked segment
 * @param windows features of the windows that cover the recording, in order of time, at least one
 * @param windowClasses ordinal of each window's {@link RecordingClass}; {@link #LEFT_OUT} where it is not clear what the window holds
 * @param recording features of the whole recording
 * @param label what the recording is called; null if nobody said
 * @param altered true for a copy whose sound was altered as other devices and rooms alter it: segments, windows, recordings and nets are learnt from it too, but no answer, calibration or
 *     threshold rests on it
 * @param quality {@link lungwort.quality.QualityMeasures#relative} of the recording; empty where they were not measured
 * @param image the recording as {@link lungwort.feature.MelImage} says; empty where there is none
 * @param heard shape {@code [2][frames of the image]}: where listeners marked a continuous sound, where a discontinuous one; empty where nobody marked any sound's time
 * @param marked the extra sounds whose time listeners marked, in order of time
 * @param sounds measured in the recording, in order of time; empty where they were not measured
 * @param spans when each marked segment is heard; empty where that is not known
 */
@SuppressWarnings("ArrayRecordComponent") // numbers on their way to a trainer, never compared
public record TrainingItem(
        String patient,
        float[][] segments,
        List<SegmentClass> classes,
        float[][] windows,
        int[] windowClasses,
        float[] recording,
        @Nullable RecordingClass label,
        boolean altered,
        double[] quality,
        float[][] image,
        boolean[][] heard,
        List<MarkedSound> marked,
        List<MeasuredSound> sounds,
        List<TimeSpan> spans) {
    /** A window from which nothing is learnt. */
    public static final int LEFT_OUT = -1;

    /** True if a sound's time can be learnt from it: listeners labelled it and marked when each sound is heard. */
    boolean timesMarked() {
        return label != null && heard.length > 0;
    }

    public TrainingItem {
        classes = List.copyOf(classes);
        marked = List.copyOf(marked);
        sounds = List.copyOf(sounds);
        spans = List.copyOf(spans);
        if (segments.length != classes.size() || windows.length == 0 || windows.length != windowClasses.length) {
            throw new IllegalArgumentException("%d segments, %d classes, %d windows, %d window classes"
                    .formatted(segments.length, classes.size(), windows.length, windowClasses.length));
        }
        if (!spans.isEmpty() && spans.size() != segments.length) {
            throw new IllegalArgumentException("%d segments, spans of %d".formatted(segments.length, spans.size()));
        }
        if (heard.length > 0 && (heard.length != 2 || image.length == 0 || heard[0].length != image[0].length)) {
            throw new IllegalArgumentException("sounds marked at other frames than the image's");
        }
    }

    /** Without an image. */
    public TrainingItem(
            String patient,
            float[][] segments,
            List<SegmentClass> classes,
            float[][] windows,
            int[] windowClasses,
            float[] recording,
            @Nullable RecordingClass label,
            boolean altered,
            double[] quality) {
        this(
                patient,
                segments,
                classes,
                windows,
                windowClasses,
                recording,
                label,
                altered,
                quality,
                new float[0][],
                new boolean[0][],
                List.of(),
                List.of(),
                List.of());
    }

    /** Without quality measures and an image. */
    public TrainingItem(
            String patient,
            float[][] segments,
            List<SegmentClass> classes,
            float[][] windows,
            int[] windowClasses,
            float[] recording,
            @Nullable RecordingClass label,
            boolean altered) {
        this(patient, segments, classes, windows, windowClasses, recording, label, altered, new double[0]);
    }
}
