package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import lungwort.classify.RecordingClass;
import lungwort.classify.SegmentClass;
import lungwort.classify.SoundModel;
import lungwort.classify.Thresholds;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;

/** Collects what models answer to annotated recordings. */
final class Answers {
    final List<EventPrediction> events = new ArrayList<>();
    final List<RecordingPrediction> recordings = new ArrayList<>();

    /** Lets a model answer to one recording: its events as annotated, the recording from its own windows. */
    void add(Measured m, SoundModel model) {
        AnnotatedRecording r = m.source();
        Thresholds t = model.thresholds();
        double[][] segments = model.inContext(alone(model, m.item().segments()));
        for (int i = 0; i < segments.length; i++) {
            events.add(new EventPrediction(
                    r.id(),
                    r.patient(),
                    r.device(),
                    r.events().get(i).label(),
                    t.adventitious(segments[i]),
                    EventLabel.valueOf(t.segmentClass(segments[i]).name()),
                    SegmentClass.continuous(segments[i]),
                    SegmentClass.discontinuous(segments[i])));
        }
        double[] whole = model.recordingProbabilities(
                alone(model, m.item().windows()), m.item().recording());
        SoundModel.Calibrated c = model.calibrated(whole);
        recordings.add(new RecordingPrediction(
                r.id(),
                r.patient(),
                r.device(),
                r.label(),
                verdict(t.verdict(whole)),
                label(t.recordingClass(whole)),
                c.continuous(),
                c.discontinuous(),
                c.poorQuality()));
    }

    private static double[][] alone(SoundModel model, float[][] rows) {
        return java.util.Arrays.stream(rows)
                .parallel()
                .map(model::segmentProbabilities)
                .toArray(double[][]::new);
    }

    private static RecordingVerdict verdict(RecordingClass c) {
        return switch (c) {
            case NORMAL -> RecordingVerdict.NORMAL;
            case POOR_QUALITY -> RecordingVerdict.POOR_QUALITY;
            default -> RecordingVerdict.ADVENTITIOUS;
        };
    }

    private static RecordingLabel label(RecordingClass c) {
        return switch (c) {
            case NORMAL -> RecordingLabel.NORMAL;
            case CONTINUOUS -> RecordingLabel.CAS;
            case DISCONTINUOUS -> RecordingLabel.DAS;
            case BOTH -> RecordingLabel.CAS_AND_DAS;
            case POOR_QUALITY -> RecordingLabel.POOR_QUALITY;
        };
    }
}
