package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import lungwort.classify.Judgement;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import org.junit.jupiter.api.Test;

class FindingsTest {
    private static final Quality GOOD = new Quality(true, List.of());
    private static final Quality QUIET = new Quality(
            true, List.of(new Quality.Finding(QualityIssue.TOO_QUIET, false, "level 70 dB below full scale")));
    private static final Quality CLIPPED =
            new Quality(false, List.of(new Quality.Finding(QualityIssue.CLIPPED, true, "30 % of samples")));

    @Test
    void whoeverIsRefusedByWhatWasLearntIsToldWhatToDo() {
        Findings refused = findings(GOOD, true);
        assertThat(refused.suggestion()).isEqualTo(Suggestion.CANNOT_TELL);
        assertThat(refused.quality().usable()).isFalse();
        Quality.Finding finding = refused.quality().findings().get(0);
        assertThat(finding.issue()).isEqualTo(QualityIssue.UNCLEAR);
        assertThat(finding.grave()).isTrue();
        assertThat(finding.detail()).isEqualTo("probability 62 %");
        assertThat(finding.issue().remedy()).contains("record again");
    }

    @Test
    void withoutDoubtNothingIsAdded() {
        Findings heard = findings(GOOD, false);
        assertThat(heard.suggestion()).isEqualTo(Suggestion.CONTINUOUS);
        assertThat(heard.quality()).isEqualTo(GOOD);
    }

    @Test
    void whatElseWasFoundStandsBehind() {
        assertThat(findings(QUIET, true).quality().findings())
                .extracting(Quality.Finding::issue)
                .containsExactly(QualityIssue.UNCLEAR, QualityIssue.TOO_QUIET);
    }

    @Test
    void aMeasuredReasonIsReasonEnough() {
        assertThat(findings(CLIPPED, true).quality()).isEqualTo(CLIPPED);
        assertThat(findings(CLIPPED, false).suggestion()).isEqualTo(Suggestion.CANNOT_TELL);
    }

    private static Findings findings(Quality quality, boolean poor) {
        Judgement judgement = new Judgement(0.9, 0.1, 0.62, true, false, poor, poor, List.of(), List.of());
        return Findings.of(quality, judgement, List.of(), 15);
    }
}
