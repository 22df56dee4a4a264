package lungwort.tests.quality;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.audio.RecordingReader;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.OpenData;
import lungwort.dataset.RecordingLabel;
import lungwort.quality.QualityCheck;
import lungwort.quality.QualityMeasures;
import org.junit.jupiter.api.Test;

/**
 * The quality verdict and measures against SPRSound's label "Poor Quality" (Zhang et al. 2022). The simple combination is a logistic regression on standardised, clipped measures, five folds by
 * patient; it is here to show what the measures hold. How they and the learnt probability are joined is decided in training ({@code classify.PoorRule}) and scored by
 * {@code lungwort score --split train-cv}.
 */
class PoorQualityOnPublicDataTest {
    private static final int FOLDS = 5;

    @Test
    void measuresTellPoorRecordingsAndFewGoodOnesAreRefused() {
        List<double[]> all = new ArrayList<>();
        List<double[]> relative = new ArrayList<>();
        List<Boolean> poor = new ArrayList<>();
        List<Integer> folds = new ArrayList<>();
        int[] count = new int[2];
        int[] refused = new int[2];
        for (AnnotatedRecording truth : OpenData.open(DatabaseKind.SPRSOUND).withAudio("train")) {
            QualityMeasures measures = QualityCheck.measure(RecordingReader.read(truth.audio()));
            all.add(measures.numbers().values().stream()
                    .mapToDouble(Double::doubleValue)
                    .toArray());
            relative.add(measures.relative());
            boolean isPoor = truth.label() == RecordingLabel.POOR_QUALITY;
            poor.add(isPoor);
            folds.add(Math.floorMod(truth.patient().hashCode(), FOLDS));
            count[isPoor ? 1 : 0]++;
            refused[isPoor ? 1 : 0] += QualityCheck.judge(measures).usable() ? 0 : 1;
        }
        double[] scores = outOfFold(relative, poor, folds);
        double auc = auc(scores, poor);
        double share = (double) refused[0] / count[0];
        System.out.printf(
                "SPRSound, poor quality, folds by patient: AUC of all measures %.3f, of those that hold under other devices %.3f, which catch %.0f %% of the poor where 5 %% of the good are refused%n",
                auc(outOfFold(all, poor, folds), poor), auc, 100 * caught(scores, poor));
        System.out.printf(
                "the rules alone refuse %.2f %% of %d good and %.0f %% of %d poor recordings%n",
                100 * share, count[0], 100.0 * refused[1] / count[1], count[1]);
        assertThat(auc).isGreaterThan(0.90);
        assertThat(share).isLessThanOrEqualTo(0.005);
    }

    private static double[] outOfFold(List<double[]> rows, List<Boolean> poor, List<Integer> folds) {
        double[] scores = new double[rows.size()];
        for (int fold = 0; fold < FOLDS; fold++) {
            LogisticCombination fit = LogisticCombination.fit(rows, poor, folds, fold);
            for (int i = 0; i < scores.length; i++) {
                scores[i] = folds.get(i) == fold ? fit.score(rows.get(i)) : scores[i];
            }
        }
        return scores;
    }

    /** Share of the poor above the limit that one good recording in twenty reaches. */
    private static double caught(double[] scores, List<Boolean> poor) {
        double[] good = IntStream.range(0, scores.length)
                .filter(i -> !poor.get(i))
                .mapToDouble(i -> scores[i])
                .sorted()
                .toArray();
        double limit = good[good.length - 1 - good.length / 20];
        return IntStream.range(0, scores.length)
                .filter(poor::get)
                .mapToDouble(i -> scores[i] > limit ? 1 : 0)
                .average()
                .orElseThrow();
    }

    /** Probability that a poor recording scores above a good one; ties count half. */
    private static double auc(double[] scores, List<Boolean> poor) {
        double wins = 0;
        long pairs = 0;
        for (int i = 0; i < scores.length; i++) {
            for (int j = 0; j < scores.length; j++) {
                if (poor.get(i) && !poor.get(j)) {
                    pairs++;
                    wins += scores[i] > scores[j] ? 1 : scores[i] == scores[j] ? 0.5 : 0;
                }
            }
        }
        return wins / pairs;
    }
}
