package lungwort.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import lungwort.classify.HeardEvents;
import lungwort.classify.Judge;
import lungwort.classify.Judgement;
import lungwort.classify.NetLook;
import lungwort.classify.RecordingClass;
import lungwort.classify.SegmentAnswers;
import lungwort.classify.SegmentClass;
import lungwort.classify.SoundModel;
import lungwort.classify.Thresholds;
import lungwort.classify.TrainingItem;
import lungwort.classify.WindowAnswer;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.examine.Findings;
import org.jspecify.annotations.Nullable;

/** Collects what models answer to annotated recordings. */
final class Answers {
    /** Above the share of windows with sounds in training, so that neither answer is favoured. */
    private static final double BREATH_HEARD_FROM = 0.2;

    final List<EventPrediction> events = new ArrayList<>();
    final List<RecordingPrediction> recordings = new ArrayList<>();
    final List<EventSpan> annotated = new ArrayList<>();
    final List<EventSpan> found = new ArrayList<>();

    /** Lets a model answer to recordings: events as annotated, recordings from their own windows, each in the light of the person's others. */
    void addAll(List<Measured> measured, SoundModel model, boolean wholeBreaths) {
        Map<String, List<Measured>> byPatient = new TreeMap<>();
        measured.forEach(m -> byPatient
                .computeIfAbsent(m.source().patient(), p -> new ArrayList<>())
                .add(m));
        byPatient.values().forEach(recordingsOfOne -> addPatient(recordingsOfOne, model, wholeBreaths));
    }

    private void addPatient(List<Measured> measured, SoundModel model, boolean wholeBreaths) {
        List<List<WindowAnswer>> windows =
                measured.stream().map(m -> windows(m, model)).toList();
        List<@Nullable NetLook> seen =
                measured.stream().map(m -> model.look(m.item().image())).toList();
        List<double[]> alone = IntStream.range(0, measured.size())
                .mapToObj(i -> model.recordingProbabilities(
                        windows.get(i), measured.get(i).item().recording(), seen.get(i)))
                .toList();
        List<double[][]> segments = model.inContext(IntStream.range(0, measured.size())
                .mapToObj(i -> segments(measured.get(i).item(), seen.get(i), alone.get(i), model))
                .toList());
        List<double[]> whole = model.amongTakes(alone);
        for (int i = 0; i < measured.size(); i++) {
            if (wholeBreaths) {
                addBreaths(measured.get(i), model);
            } else {
                addEvents(measured.get(i).source(), segments.get(i), model.thresholds());
            }
            TrainingItem item = measured.get(i).item();
            HeardEvents heard = model.events(seen.get(i), item.image(), item.sounds(), alone.get(i));
            AloneAnswer answer = alone(measured.get(i), windows.get(i), alone.get(i), heard, model);
            addRecording(measured.get(i).source(), whole.get(i), answer, model);
        }
    }

    private static SegmentAnswers segments(
            TrainingItem item, @Nullable NetLook seen, double[] alone, SoundModel model) {
        return model.segments(item.segments(), item.spans(), seen, item.sounds(), alone);
    }

    /** Whole breaths, whatever sounds in them, are judged as windows are: their bounds say nothing of where a sound begins. */
    private void addBreaths(Measured m, SoundModel model) {
        AnnotatedRecording r = m.source();
        for (int i = 0; i < r.events().size(); i++) {
            WindowAnswer answer = model.window(m.item().segments()[i], m.item().recording());
            boolean continuous = answer.continuous() >= BREATH_HEARD_FROM;
            boolean discontinuous = answer.discontinuous() >= BREATH_HEARD_FROM;
            events.add(new EventPrediction(
                    r.id(),
                    r.patient(),
                    r.device(),
                    r.events().get(i).label(),
                    continuous || discontinuous,
                    breathLabel(continuous, discontinuous),
                    answer.continuous(),
                    answer.discontinuous()));
        }
    }

    private static EventLabel breathLabel(boolean continuous, boolean discontinuous) {
        if (continuous) {
            return discontinuous ? EventLabel.WHEEZE_AND_CRACKLE : EventLabel.WHEEZE;
        }
        return discontinuous ? EventLabel.CRACKLE : EventLabel.NORMAL;
    }

    void addEvents(AnnotatedRecording r, double[][] segments, Thresholds t) {
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
    }

    private AloneAnswer alone(
            Measured m, List<WindowAnswer> windows, double[] alone, HeardEvents heard, SoundModel model) {
        Examined examined = m.examined();
        Judgement judgement = new Judge(model)
                .judge(m.windows(), windows, alone, heard, m.item().recording(), examined.relative());
        Findings findings = Findings.of(
                examined.quality(), judgement, examined.sounds(), examined.agreement(), examined.durationSeconds());
        // Nobody marked events in recordings of poor quality, so what is found there is neither right nor wrong.
        if (m.source().label() != RecordingLabel.POOR_QUALITY) {
            annotated.addAll(OwnSegmentation.annotated(m.source()));
            found.addAll(
                    model.findsEvents()
                            ? OwnSegmentation.found(m.source().id(), findings.events())
                            : OwnSegmentation.found(m.source().id(), findings.evidence(), examined.phases()));
        }
        return new AloneAnswer(
                judgement.continuous(),
                judgement.discontinuous(),
                judgement.poorQuality(),
                findings.suggestion(),
                !findings.quality().usable());
    }

    private void addRecording(AnnotatedRecording r, double[] whole, AloneAnswer alone, SoundModel model) {
        SoundModel.Calibrated c = model.calibrated(whole);
        recordings.add(new RecordingPrediction(
                r.id(),
                r.patient(),
                r.device(),
                r.label(),
                verdict(model.thresholds().verdict(whole)),
                label(model.thresholds().recordingClass(whole)),
                c.continuous(),
                c.discontinuous(),
                c.poorQuality(),
                alone));
    }

    private static List<WindowAnswer> windows(Measured m, SoundModel model) {
        return Arrays.stream(m.item().windows())
                .parallel()
                .map(x -> model.window(x, m.item().recording()))
                .toList();
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
