package lungwort.classify;

import java.util.ArrayList;
import java.util.List;
import lungwort.feature.FeatureExtractor;
import lungwort.feature.TimeSpan;
import lungwort.signal.ChestViews;
import lungwort.sound.MeasuredSound;

/** From a recording's views and measured sounds to calibrated probabilities, the decision, and its reasons. Safe for many threads. */
public final class Judge {
    /** A sound is suggested from this calibrated probability. */
    static final double HEARD_FROM = 0.5;

    /** Between this and {@link #HEARD_FROM} a sound is neither suggested nor ruled out: cannot tell. */
    static final double UNSURE_FROM = 0.35;

    /** From this probability of poor quality nothing is suggested. */
    public static final double POOR_FROM = 0.5;

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
     * @param views of the recording, of any length
     * @param sounds the sounds measured in it, in order of time
     */
    public Judgement judge(ChestViews views, List<MeasuredSound> sounds) {
        FeatureExtractor extractor = FeatureExtractor.of(views);
        List<WindowAnswer> answers = new ArrayList<>();
        List<Reasons.Window> windows = new ArrayList<>();
        for (TimeSpan span : extractor.windows()) {
            float[] features = extractor.segment(span.startSeconds(), span.endSeconds());
            WindowAnswer answer = model.window(features);
            answers.add(answer);
            windows.add(new Reasons.Window(
                    new Judgement.JudgedSegment(
                            span.startSeconds(), span.endSeconds(), answer.continuous(), answer.discontinuous()),
                    features));
        }
        double[] whole = model.recordingProbabilities(answers, extractor.recording());
        SoundModel.Calibrated c = model.calibrated(whole);
        boolean heardContinuous = c.continuous() >= HEARD_FROM;
        boolean heardDiscontinuous = c.discontinuous() >= HEARD_FROM;
        boolean unsure =
                !heardContinuous && !heardDiscontinuous && Math.max(c.continuous(), c.discontinuous()) >= UNSURE_FROM;
        boolean cannotTell = c.poorQuality() >= POOR_FROM || unsure;
        return new Judgement(
                c.continuous(),
                c.discontinuous(),
                c.poorQuality(),
                heardContinuous,
                heardDiscontinuous,
                cannotTell,
                Reasons.of(model.stages().window(), windows, sounds, c),
                windows.stream().map(Reasons.Window::span).toList());
    }
}
