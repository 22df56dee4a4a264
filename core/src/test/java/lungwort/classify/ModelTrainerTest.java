package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class ModelTrainerTest {
    @Test
    void learnsAllThreeStages() {
        ModelTrainer.Trained trained =
                ModelTrainer.fit(NoiseModel.items(1), NoiseModel.folds(), NoiseModel.settings(), what -> {});
        List<TrainingItem> unseen = NoiseModel.items(2);
        int segments = 0;
        int recordings = 0;
        for (TrainingItem item : unseen) {
            double[][] alone = new double[item.segments().length][];
            for (int s = 0; s < alone.length; s++) {
                alone[s] = trained.model().segmentProbabilities(item.segments()[s]);
                segments += Rows.likeliest(alone[s]) == item.classes().get(s).ordinal() ? 1 : 0;
            }
            List<WindowAnswer> windows = Arrays.stream(item.windows())
                    .map(x -> trained.model().window(x, item.recording()))
                    .toList();
            double[] whole = trained.model().recordingProbabilities(windows, item.recording());
            recordings += item.label() != null
                            && Rows.likeliest(whole) == item.label().ordinal()
                    ? 1
                    : 0;
        }
        assertThat(segments / 180.0).isGreaterThan(0.6);
        assertThat(recordings / 60.0).isGreaterThan(0.6);
    }

    /** A fitted logistic scale states as many cases as there were (its intercept's equation); the ridge and each scale's own recordings leave it that. */
    @Test
    void eachScaleStatesTheShareOfWhatItWasFittedOn() {
        List<TrainingItem> items = NoiseModel.items(1);
        ModelTrainer.Trained trained = ModelTrainer.fit(items, NoiseModel.folds(), NoiseModel.settings(), what -> {});
        double among = 0;
        double alone = 0;
        double aloneByTheOther = 0;
        for (int i = 0; i < items.size(); i++) {
            if (items.get(i).label() != RecordingClass.POOR_QUALITY) {
                among += trained.model().calibrated(trained.recordings()[i]).continuous();
                alone += trained.model()
                        .calibratedAlone(trained.recordingsAlone()[i])
                        .continuous();
                aloneByTheOther +=
                        trained.model().calibrated(trained.recordingsAlone()[i]).continuous();
            }
        }
        // 24 of 48 judged recordings hold a continuous sound
        assertThat(among).isEqualTo(24, within(0.1));
        assertThat(alone).isEqualTo(24, within(0.1));
        assertThat(Math.abs(aloneByTheOther - 24)).isGreaterThan(Math.abs(alone - 24));
    }

    @Test
    void isTheSameForAnyNumberOfThreads() throws Exception {
        byte[] one = Rows.withThreads(1, () -> ModelFile.bytes(NoiseModel.train(1)));
        byte[] four = Rows.withThreads(4, () -> ModelFile.bytes(NoiseModel.train(1)));
        assertThat(four).isEqualTo(one);
    }
}
