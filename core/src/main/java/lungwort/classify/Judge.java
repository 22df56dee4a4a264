package lungwort.classify;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
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
     * @param sounds the sounds measured in it, in order of time
     * @param quality its {@link lungwort.quality.QualityMeasures#relative}
     */
    public Judgement judge(SoundSearch search, List<MeasuredSound> sounds, double[] quality) {
        FeatureExtractor extractor = FeatureExtractor.of(search);
        List<TimeSpan> spans = extractor.windows();
        float[][] features = spans.stream()
                .map(span -> extractor.segment(span.startSeconds(), span.endSeconds()))
                .toArray(float[][]::new);
        Judgement judgement = judge(spans, features, extractor.recording(), quality);
        List<Reasons.Window> windows = IntStream.range(0, features.length)
                .mapToObj(i -> new Reasons.Window(judgement.segments().get(i), features[i]))
                .toList();
        SoundModel.Calibrated c =
                new SoundModel.Calibrated(judgement.continuous(), judgement.discontinuous(), judgement.poorQuality());
        return judgement.because(Reasons.of(model.stages().window(), windows, sounds, c));
    }

    /**
     * Judges one recording from its features, without reasons.
     *
     * @param spans its windows
     * @param windows features of each window, in the order of the segment catalogue
     * @param recording features of the whole, in the order of the recording catalogue
     * @param quality its {@link lungwort.quality.QualityMeasures#relative}
     */
    public Judgement judge(List<TimeSpan> spans, float[][] windows, float[] recording, double[] quality) {
        List<WindowAnswer> answers = Arrays.stream(windows).map(model::window).toList();
        List<Judgement.JudgedSegment> segments = IntStream.range(0, windows.length)
                .mapToObj(i -> new Judgement.JudgedSegment(
                        spans.get(i).startSeconds(),
                        spans.get(i).endSeconds(),
                        answers.get(i).continuous(),
                        answers.get(i).discontinuous()))
                .toList();
        SoundModel.Calibrated c = model.calibratedAlone(model.recordingProbabilities(answers, recording));
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
                List.of(),
                segments);
    }
}
