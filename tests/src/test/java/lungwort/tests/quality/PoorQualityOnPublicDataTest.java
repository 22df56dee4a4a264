package lungwort.tests.quality;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lungwort.audio.RecordingReader;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.Databases;
import lungwort.dataset.RecordingLabel;
import lungwort.quality.QualityCheck;
import lungwort.quality.QualityMeasures;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

/**
 * The quality verdict and measures against SPRSound's label "Poor Quality" (Zhang et al. 2022). The simple combination is a logistic regression on standardised, clipped measures, five folds by
 * patient; it is here to show what the measures hold, the shipped probability is the model's.
 */
class PoorQualityOnPublicDataTest {
    private static final int FOLDS = 5;

    @Test
    void measuresTellPoorRecordingsAndFewGoodOnesAreRefused() {
        List<double[]> rows = new ArrayList<>();
        List<Boolean> poor = new ArrayList<>();
        List<Integer> folds = new ArrayList<>();
        int good = 0;
        int refused = 0;
        for (AnnotatedRecording truth : recordings()) {
            QualityMeasures measures = QualityCheck.measure(RecordingReader.read(truth.audio()));
            rows.add(measures.numbers().values().stream()
                    .mapToDouble(Double::doubleValue)
                    .toArray());
            boolean isPoor = truth.label() == RecordingLabel.POOR_QUALITY;
            poor.add(isPoor);
            folds.add(Math.floorMod(truth.patient().hashCode(), FOLDS));
            good += isPoor ? 0 : 1;
            refused += !isPoor && !QualityCheck.judge(measures).usable() ? 1 : 0;
        }
        double[] scores = new double[rows.size()];
        for (int fold = 0; fold < FOLDS; fold++) {
            LogisticCombination fit = LogisticCombination.fit(rows, poor, folds, fold);
            for (int i = 0; i < scores.length; i++) {
                scores[i] = folds.get(i) == fold ? fit.score(rows.get(i)) : scores[i];
            }
        }
        double auc = auc(scores, poor);
        double share = (double) refused / good;
        System.out.printf(
                "SPRSound, poor quality: AUC of the simple combination %.3f; the verdict refuses %.1f %% of %d good recordings%n",
                auc, 100 * share, good);
        assertThat(auc).isGreaterThan(0.90);
        assertThat(share).isLessThanOrEqualTo(0.05);
    }

    private static List<AnnotatedRecording> recordings() {
        String folder = System.getProperty("LUNGWORT_DATA", System.getenv("LUNGWORT_DATA"));
        Optional<Path> root = folder == null || folder.isBlank()
                ? Optional.empty()
                : Databases.find(Path.of(folder), DatabaseKind.SPRSOUND);
        String reason = "skipped: %s is not there; set LUNGWORT_DATA to the folder that holds %s"
                .formatted(DatabaseKind.SPRSOUND.title(), DatabaseKind.SPRSOUND.folderName());
        if (root.isEmpty()) {
            System.out.println(reason);
        }
        Assumptions.assumeTrue(root.isPresent(), reason);
        return Databases.open(root.orElseThrow(), DatabaseKind.SPRSOUND).withAudio("train");
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
