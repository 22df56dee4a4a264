package lungwort.classify;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.breath.Breathing;
import lungwort.feature.FeatureExtractor;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundSearch;

/** From a recording's views and measured sounds to calibrated probabilities, the decision, and its reasons. Safe for many threads. */
public final class Judge {
    private final SoundModel model;

    public Judge(SoundModel model) {
        this.model = model;
    }

    /** The model that judges. */
    public SoundModel model() {
        return model;
    }

    /**
     * Judges one recording.
     *
     * @param search of the recording, of any length
     * @param breathing its breaths
     * @param sounds the sounds measured in it, in order of time
     * @param quality its {@link lungwort.quality.QualityMeasures#relative}
     */
    public Judgement judge(SoundSearch search, Breathing breathing, List<MeasuredSound> sounds, double[] quality) {
        FeatureExtractor extractor = FeatureExtractor.of(search, breathing);
        List<TimeSpan> spans = extractor.windows();
        float[][] features = spans.stream()
                .map(span -> extractor.segment(span.startSeconds(), span.endSeconds()))
                .toArray(float[][]::new);
        float[] recording = extractor.recording();
        float[][] image = model.seesImage() ? extractor.image() : new float[0][];
        List<WindowAnswer> answers =
                Arrays.stream(features).map(x -> model.window(x, recording)).toList();
        NetLook seen = model.look(image);
        double[] whole = model.recordingProbabilities(answers, recording, seen);
        Judgement judgement =
                judge(spans, answers, whole, model.events(seen, image, sounds, whole), recording, quality);
        List<Reasons.Window> windows = IntStream.range(0, features.length)
                .mapToObj(i ->
                        new Reasons.Window(judgement.segments().get(i), features[i], SoundModel.agreement(recording)))
                .toList();
        SoundModel.Calibrated c =
                new SoundModel.Calibrated(judgement.continuous(), judgement.discontinuous(), judgement.poorQuality());
        return judgement.because(Reasons.of(model.stages(), windows, sounds, c, seen));
    }

    /**
     * Judges one recording from what the model says of it, without reasons.
     *
     * @param spans its windows
     * @param answers {@link SoundModel#window} of each window
     * @param whole {@link SoundModel#recordingProbabilities} of the recording by itself
     * @param events {@link SoundModel#events} of the recording
     * @param recording its features, in the order of the recording catalogue
     * @param quality its {@link lungwort.quality.QualityMeasures#relative}
     */
    public Judgement judge(
            List<TimeSpan> spans,
            List<WindowAnswer> answers,
            double[] whole,
            HeardEvents events,
            float[] recording,
            double[] quality) {
        List<Judgement.JudgedSegment> segments = IntStream.range(0, spans.size())
                .mapToObj(i -> new Judgement.JudgedSegment(
                        spans.get(i).startSeconds(),
                        spans.get(i).endSeconds(),
                        answers.get(i).continuous(),
                        answers.get(i).discontinuous()))
                .toList();
        SoundModel.Calibrated c = model.calibratedAlone(whole, answers, recording);
        Limits limits = model.limits();
        PoorRule.Answer poor = model.poor(quality, c);
        return new Judgement(
                c.continuous(),
                c.discontinuous(),
                poor.probability(),
                limits.heard(c.continuous()),
                limits.heard(c.discontinuous()),
                poor.refused(),
                poor.refused() || limits.unsure(c),
                model.familiar(recording),
                List.of(),
                segments,
                events);
    }
}
