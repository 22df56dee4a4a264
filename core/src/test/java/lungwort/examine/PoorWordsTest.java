package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.quality.QualityMeasures;
import org.junit.jupiter.api.Test;

/** What a learnt refusal says of itself. The rule is linear, so what weighs most is arithmetic. */
class PoorWordsTest {
    private static final List<String> NAMES =
            List.of("speech", "voiced 2", "rub", "breath depth", "swell 60-100", "coughs");

    @Test
    void whatWeighsMostIsToldFirstAndMeasuresOfOneThingTogether() {
        String words = PoorWords.words(NAMES, new double[] {0.5, 0.6, 0.9, -2, 0.3, 0.1});

        assertThat(words).matches("voices.*; knocks.*");
    }

    @Test
    void whatSpeaksForAGoodRecordingOrHardlyAtAllIsNotTold() {
        assertThat(PoorWords.words(NAMES, new double[] {1, -2, 0.1, -1, 0, 0})).isEmpty();
    }

    @Test
    void everyMeasureHasWords() {
        List<String> names = QualityMeasures.relativeNames();
        for (int k = 0; k < names.size(); k++) {
            double[] one = new double[names.size()];
            one[k] = 1;
            assertThat(PoorWords.words(names, one))
                    .as(names.get(k))
                    .contains("(")
                    .doesNotContain(";");
        }
    }

    @Test
    void onlyTheLearntRefusalIsGivenThem() {
        Quality.Finding learnt = new Quality.Finding(QualityIssue.UNCLEAR, true, "probability 80 %");
        Quality.Finding hum = new Quality.Finding(QualityIssue.HUM, false, "50 Hz");
        double[] rubbing = {0, 0, 2, 0, 0, 0};

        Quality told = PoorWords.told(new Quality(false, List.of(learnt, hum)), NAMES, rubbing);

        assertThat(told.findings().get(0).detail()).startsWith("probability 80 %; weighed most: knocks");
        assertThat(told.findings().get(1)).isEqualTo(hum);
        Quality other = new Quality(true, List.of(hum));
        assertThat(PoorWords.told(other, NAMES, rubbing)).isEqualTo(other);
        assertThat(Arrays.asList(learnt))
                .isEqualTo(PoorWords.told(new Quality(false, List.of(learnt)), NAMES, new double[0])
                        .findings());
    }
}
