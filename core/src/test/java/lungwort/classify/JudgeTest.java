package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import lungwort.audio.Recording;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.FeatureExtractor;
import lungwort.feature.TimeSpan;
import lungwort.signal.ChestViews;
import lungwort.sound.SoundSearch;
import org.junit.jupiter.api.Test;

class JudgeTest {
    /** One recording is judged by the scale that was fitted for one recording, and by the model's own limits. */
    @Test
    void oneRecordingIsJudgedByItsOwnScaleAndTheModelsLimits() {
        SoundModel trained = NoiseModel.train(1);
        for (TrainingItem item : NoiseModel.items(3).subList(0, 12)) {
            List<TimeSpan> spans = List.of(new TimeSpan(0, 1), new TimeSpan(1, 2));
            List<WindowAnswer> windows = Arrays.stream(item.windows())
                    .map(x -> trained.window(x, item.recording()))
                    .toList();
            double[] whole = trained.recordingProbabilities(windows, item.recording(), trained.look(item.image()));
            SoundModel.Calibrated p = trained.calibratedAlone(whole, windows, item.recording());
            Judgement own =
                    new Judge(trained).judge(spans, windows, whole, HeardEvents.NONE, item.recording(), new double[0]);
            assertThat(own.continuous()).isEqualTo(p.continuous());
            assertThat(own.poorQuality()).isEqualTo(p.poorQuality());
            Judgement all = judge(trained, new Limits(0, 0, 1), spans, windows, whole, item.recording());
            assertThat(all.heardContinuous() && all.heardDiscontinuous()).isTrue();
            assertThat(all.cannotTell()).isFalse();
            Judgement unsure = judge(trained, new Limits(1, 0, 1), spans, windows, whole, item.recording());
            assertThat(unsure.heardContinuous()).isFalse();
            assertThat(unsure.cannotTell()).isTrue();
            assertThat(judge(trained, new Limits(0, 0, 0), spans, windows, whole, item.recording())
                            .poor())
                    .isTrue();
        }
    }

    /** What was learnt from is familiar; what is coloured as none of it was is not, and to a model that holds no spectrum nothing is. */
    @Test
    void whetherARecordingIsFamiliarIsToldByTheModelsOwnSpectrum() {
        SoundModel trained = NoiseModel.train(1);
        TrainingItem learnt = NoiseModel.items(1).get(0);
        float[] coloured = learnt.recording().clone();
        for (int band = 0; band < FamiliarSpectrum.BANDS; band++) {
            coloured[FeatureCatalogue.recording().indexOf("recording.level." + band + ".shape")] +=
                    band % 2 == 0 ? 40 : -40;
        }
        List<TimeSpan> spans = List.of(new TimeSpan(0, 1), new TimeSpan(1, 2));
        List<WindowAnswer> windows = Arrays.stream(learnt.windows())
                .map(x -> trained.window(x, learnt.recording()))
                .toList();
        double[] whole = trained.recordingProbabilities(windows, learnt.recording(), trained.look(learnt.image()));
        Judge judge = new Judge(trained);
        assertThat(judge.judge(spans, windows, whole, HeardEvents.NONE, learnt.recording(), new double[0])
                        .familiar())
                .isTrue();
        assertThat(judge.judge(spans, windows, whole, HeardEvents.NONE, coloured, new double[0])
                        .familiar())
                .isFalse();
        assertThat(judge(trained, new Limits(0, 0, 1), spans, windows, whole, learnt.recording())
                        .familiar())
                .isFalse();
    }

    /** From sound to answer: the judge makes the image that a model with a net needs, and says what the model says of that image. */
    @Test
    void aModelWithANetIsShownTheRecordingsImage() {
        SoundModel trained = tellingAll(NoiseModel.trainWithNet(1));
        SplittableRandom random = new SplittableRandom(9);
        double[] x = new double[4 * 8000];
        for (int i = 0; i < x.length; i++) {
            x[i] = 0.02 * random.nextGaussian();
        }
        Recording recording = new Recording(x, 8000, "noise");
        SoundSearch search = SoundSearch.in(ChestViews.of(recording));
        Breathing breathing = BreathTracker.track(recording);
        FeatureExtractor extractor = FeatureExtractor.of(search, breathing);
        List<WindowAnswer> windows = extractor.windows().stream()
                .map(w -> trained.window(extractor.segment(w.startSeconds(), w.endSeconds()), extractor.recording()))
                .toList();
        NetLook seen = trained.look(extractor.image());
        double[] whole = trained.recordingProbabilities(windows, extractor.recording(), seen);
        SoundModel.Calibrated p = trained.calibratedAlone(whole, windows, extractor.recording());
        Judgement own = new Judge(trained).judge(search, breathing, search.sounds(), new double[0]);
        assertThat(own.continuous()).isEqualTo(p.continuous());
        assertThat(own.discontinuous()).isEqualTo(p.discontinuous());
        assertThat(own.events()).isEqualTo(trained.events(seen, extractor.image(), search.sounds(), whole));
        assertThat(own.events().sure()).isNotEmpty().allMatch(e -> e.startSeconds() < 4.1);
    }

    /** Whatever its probability: what is told in noise would hang on the limits. */
    private static SoundModel tellingAll(SoundModel model) {
        EventModel events = Objects.requireNonNull(model.stages().events());
        return NoiseModel.withEvents(
                model,
                new EventModel(
                        events.continuous(),
                        events.discontinuous(),
                        EventLimit.from(0),
                        EventLimit.from(0),
                        events.edges()),
                null,
                null);
    }

    private static Judgement judge(
            SoundModel model,
            Limits limits,
            List<TimeSpan> spans,
            List<WindowAnswer> windows,
            double[] whole,
            float[] recording) {
        SoundModel limited = new SoundModel(
                model.stages(),
                model.calibrations(),
                model.calibrationsAlone(),
                model.unfamiliarScale(),
                limits,
                null,
                model.thresholds(),
                null,
                model.facts());
        return new Judge(limited).judge(spans, windows, whole, HeardEvents.NONE, recording, new double[0]);
    }
}
