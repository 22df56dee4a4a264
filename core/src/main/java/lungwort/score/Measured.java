package lungwort.score;

import java.util.List;
import lungwort.classify.MarkedSound;
import lungwort.classify.RecordingClass;
import lungwort.classify.SegmentClass;
import lungwort.classify.TrainingItem;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;

/**
 * An annotated recording with its features.
 *
 * @param source the recording
 * @param item its features, with its labels in the model's classes
 * @param windows the spans of its windows
 * @param examined what an examination measures beside; its sounds alone where it is only learnt from
 */
record Measured(AnnotatedRecording source, TrainingItem item, List<TimeSpan> windows, Examined examined) {
    /** A recording with what was measured in it, and its labels in the model's classes. */
    static Measured of(AnnotatedRecording r, MeasuredFile measured, boolean altered) {
        List<AnnotatedEvent> marked = r.events();
        float[][] image = MelImage.of(measured.image());
        TrainingItem item = new TrainingItem(
                r.patient(),
                measured.segments(),
                marked.stream().map(e -> segmentClass(e.label())).toList(),
                measured.windows(),
                WindowLabels.of(r, measured.spans()),
                measured.recording(),
                recordingClass(r),
                altered,
                measured.examined().relative(),
                image,
                heard(r, image[0].length),
                altered ? List.of() : marked(r),
                measured.examined().sounds(),
                marked.stream()
                        .map(e -> new TimeSpan(e.startSeconds(), e.endSeconds()))
                        .toList());
        return new Measured(r, item, measured.spans(), measured.examined());
    }

    private static List<MarkedSound> marked(AnnotatedRecording r) {
        return r.events().stream()
                .filter(e -> e.label().adventitious())
                .map(e -> new MarkedSound(
                        e.startSeconds(),
                        e.endSeconds(),
                        e.label().continuous(),
                        e.label().discontinuous()))
                .toList();
    }

    /** Where annotators marked sounds, at the frames of the image. */
    private static boolean[][] heard(AnnotatedRecording r, int frames) {
        boolean[][] heard = new boolean[2][frames];
        for (AnnotatedEvent e : r.events()) {
            if (e.label().continuous()) {
                MelImage.mark(heard[0], e.startSeconds(), e.endSeconds());
            }
            if (e.label().discontinuous()) {
                MelImage.mark(heard[1], e.startSeconds(), e.endSeconds());
            }
        }
        return heard;
    }

    /** The same where the marked segments are breath cycles, as in ICBHI: they tell which breath holds a sound, not when it is heard. */
    Measured withCycles() {
        TrainingItem cycles = new TrainingItem(
                item.patient(),
                item.segments(),
                item.classes(),
                item.windows(),
                item.windowClasses(),
                item.recording(),
                item.label(),
                item.altered(),
                item.quality(),
                item.image(),
                new boolean[0][],
                List.of(),
                item.sounds(),
                item.spans());
        return new Measured(source, cycles, windows, examined);
    }

    /**
     * Breath cycles as windows to learn from, without marked segments and without a label of the whole: for ICBHI's recordings beside SPRSound's, whose marked segments are sounds, not
     * breaths, and whose labels listeners gave to the whole. Altered copies teach by windows of fixed length.
     */
    Measured cyclesAsWindows() {
        TrainingItem own = item;
        boolean marked = own.segments().length > 0 && !own.altered();
        int[] classes = marked
                ? source.events().stream()
                        .mapToInt(e -> recordingClass(RecordingLabel.of(
                                        e.label().continuous(), e.label().discontinuous()))
                                .ordinal())
                        .toArray()
                : own.windowClasses();
        TrainingItem learnt = new TrainingItem(
                own.patient(),
                new float[0][],
                List.of(),
                marked ? own.segments() : own.windows(),
                classes,
                own.recording(),
                null,
                own.altered(),
                new double[0],
                own.image(),
                new boolean[0][],
                List.of(),
                own.sounds(),
                List.of());
        return new Measured(source, learnt, windows, examined);
    }

    /** ICBHI's "crackle" does not say fine or coarse: it counts as coarse, the more frequent in adults [C]. */
    static SegmentClass segmentClass(EventLabel label) {
        return label == EventLabel.CRACKLE ? SegmentClass.COARSE_CRACKLE : SegmentClass.valueOf(label.name());
    }

    static RecordingClass recordingClass(AnnotatedRecording r) {
        return recordingClass(r.label());
    }

    private static RecordingClass recordingClass(RecordingLabel label) {
        return switch (label) {
            case NORMAL -> RecordingClass.NORMAL;
            case CAS -> RecordingClass.CONTINUOUS;
            case DAS -> RecordingClass.DISCONTINUOUS;
            case CAS_AND_DAS -> RecordingClass.BOTH;
            case POOR_QUALITY -> RecordingClass.POOR_QUALITY;
        };
    }
}
