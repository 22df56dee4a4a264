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
import lungwort.feature.FeatureExtractor;
import lungwort.feature.TimeSpan;
import lungwort.signal.ChestViews;

/**
 * An annotated recording with its features.
 *
 * @param source the recording
 * @param item its features, with its labels in the model's classes
 * @param windows the spans of its windows
 */
record Measured(AnnotatedRecording source, TrainingItem item, List<TimeSpan> windows) {
    /** Measures recordings in parallel, order kept. */
    static List<Measured> all(List<AnnotatedRecording> recordings, Progress progress) {
        return all(recordings, -1, progress);
    }

    /** Measures altered copies of recordings, without their marked segments. */
    static List<Measured> altered(List<AnnotatedRecording> recordings, long seed, Progress progress) {
        return all(recordings, seed, progress);
    }

    private static List<Measured> all(List<AnnotatedRecording> recordings, long seed, Progress progress) {
        AtomicInteger done = new AtomicInteger();
        Measured[] measured = new Measured[recordings.size()];
        IntStream.range(0, measured.length).parallel().forEach(i -> {
            measured[i] = of(recordings.get(i), seed < 0 ? -1 : seed + i);
            progress.at(seed < 0 ? "measuring" : "measuring altered copies", done.incrementAndGet(), measured.length);
        });
        return List.of(measured);
    }

    private static Measured of(AnnotatedRecording r, long seed) {
        boolean altered = seed >= 0;
        Recording audio = RecordingReader.read(r.audio());
        FeatureExtractor extractor = FeatureExtractor.of(ChestViews.of(altered ? Alteration.of(audio, seed) : audio));
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
        return new Measured(r, item, spans);
    }

    /** ICBHI's "crackle" does not say fine or coarse: it counts as coarse, the more frequent in adults [C]. */
    static SegmentClass segmentClass(EventLabel label) {
        return label == EventLabel.CRACKLE ? SegmentClass.COARSE_CRACKLE : SegmentClass.valueOf(label.name());
    }

    static RecordingClass recordingClass(AnnotatedRecording r) {
        return switch (r.label()) {
            case NORMAL -> RecordingClass.NORMAL;
            case CAS -> RecordingClass.CONTINUOUS;
            case DAS -> RecordingClass.DISCONTINUOUS;
            case CAS_AND_DAS -> RecordingClass.BOTH;
            case POOR_QUALITY -> RecordingClass.POOR_QUALITY;
        };
    }
}
