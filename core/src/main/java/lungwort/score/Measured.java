package lungwort.score;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.classify.RecordingClass;
import lungwort.classify.SegmentClass;
import lungwort.classify.TrainingItem;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.feature.FeatureExtractor;
import lungwort.feature.TimeSpan;
import lungwort.signal.ChestViews;

/**
 * An annotated recording with its features.
 *
 * @param source the recording
 * @param item its features, with its labels in the model's classes
 * @param windows the spans of its windows
 * @param examined what an examination measures beside; {@link Examined#NOT} where it is only learnt from
 */
record Measured(AnnotatedRecording source, TrainingItem item, List<TimeSpan> windows, Examined examined) {
    private static final long ROW_SEED = 500_000;

    /** What is done to the sound of a recording before it is measured. */
    private interface Change {
        Recording apply(Recording recording, int index);
    }

    /** What recordings are measured for. */
    enum Purpose {
        TRAINING,
        /** Learnt from, and answered when held out. */
        SCORING,
        /** Learnt from as altered sound, without marked segments. */
        ALTERED_COPY
    }

    /** Measures recordings in parallel, order kept. */
    static List<Measured> all(List<AnnotatedRecording> recordings, Purpose purpose, Progress progress) {
        return all(recordings, "measuring", purpose, (r, i) -> r, progress);
    }

    /** Measures recordings whose sound is altered in one way: a row of a robustness table. */
    static List<Measured> all(List<AnnotatedRecording> recordings, AlterationRow row, Progress progress) {
        return all(recordings, "measuring", Purpose.SCORING, (r, i) -> row.apply(r, ROW_SEED + i), progress);
    }

    /** Measures altered copies of recordings, without their marked segments. */
    static List<Measured> altered(List<AnnotatedRecording> recordings, long seed, Progress progress) {
        return all(
                recordings,
                "measuring altered copies",
                Purpose.ALTERED_COPY,
                (r, i) -> Alteration.of(r, seed + i),
                progress);
    }

    /**
     * Breath cycles as windows to learn from, without marked segments and without a label of the whole: for ICBHI's recordings beside SPRSound's, whose marked segments are sounds, not
     * breaths, and whose labels listeners gave to the whole.
     */
    Measured cyclesAsWindows() {
        TrainingItem own = item;
        boolean marked = own.segments().length > 0;
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
                own.altered());
        return new Measured(source, learnt, windows, examined);
    }

    private static List<Measured> all(
            List<AnnotatedRecording> recordings, String what, Purpose purpose, Change change, Progress progress) {
        AtomicInteger done = new AtomicInteger();
        Measured[] measured = new Measured[recordings.size()];
        IntStream.range(0, measured.length).parallel().forEach(i -> {
            AnnotatedRecording r = recordings.get(i);
            measured[i] = of(r, change.apply(RecordingReader.read(r.audio()), i), purpose);
            progress.at(what, done.incrementAndGet(), measured.length);
        });
        return List.of(measured);
    }

    private static Measured of(AnnotatedRecording r, Recording audio, Purpose purpose) {
        ChestViews views = ChestViews.of(audio);
        boolean altered = purpose == Purpose.ALTERED_COPY;
        Examined examined = purpose == Purpose.SCORING ? Examined.of(audio, views) : Examined.NOT;
        FeatureExtractor extractor = FeatureExtractor.of(views);
        List<AnnotatedEvent> marked = altered ? List.of() : r.events();
        float[][] segments = marked.stream()
                .map(e -> extractor.segment(e.startSeconds(), e.endSeconds()))
                .toArray(float[][]::new);
        List<TimeSpan> spans = extractor.windows();
        float[][] windows = spans.stream()
                .map(s -> extractor.segment(s.startSeconds(), s.endSeconds()))
                .toArray(float[][]::new);
        List<SegmentClass> classes = marked.stream()
                .map(AnnotatedEvent::label)
                .map(Measured::segmentClass)
                .toList();
        TrainingItem item = new TrainingItem(
                r.patient(),
                segments,
                classes,
                windows,
                WindowLabels.of(r, spans),
                extractor.recording(),
                recordingClass(r),
                altered);
        return new Measured(r, item, spans, examined);
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
