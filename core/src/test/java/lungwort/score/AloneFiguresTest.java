package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import lungwort.classify.RiskCoverage;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.RecordingLabel;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;

/** By hand: shares of answers to ten recordings, two of them too poor for the listeners. */
class AloneFiguresTest {
    private final List<RecordingPrediction> recordings = new ArrayList<>();

    private void add(RecordingLabel truth, double continuous, double discontinuous, Suggestion suggestion) {
        add(truth, continuous, discontinuous, suggestion, false);
    }

    private void add(
            RecordingLabel truth, double continuous, double discontinuous, Suggestion suggestion, boolean refused) {
        int i = recordings.size();
        recordings.add(new RecordingPrediction(
                "r" + i,
                "p" + i / 2,
                "A",
                truth,
                RecordingVerdict.NORMAL,
                RecordingLabel.NORMAL,
                0,
                0,
                0,
                new AloneAnswer(continuous, discontinuous, 0.1, suggestion, refused)));
    }

    private ScoreReport report() {
        add(RecordingLabel.NORMAL, 0.1, 0.1, Suggestion.NONE_HEARD);
        add(RecordingLabel.NORMAL, 0.2, 0.1, Suggestion.NONE_HEARD);
        add(RecordingLabel.NORMAL, 0.45, 0.1, Suggestion.CANNOT_TELL, true);
        add(RecordingLabel.NORMAL, 0.7, 0.1, Suggestion.CONTINUOUS);
        add(RecordingLabel.CAS, 0.9, 0.1, Suggestion.CONTINUOUS);
        add(RecordingLabel.CAS, 0.3, 0.1, Suggestion.NONE_HEARD);
        add(RecordingLabel.DAS, 0.1, 0.48, Suggestion.CANNOT_TELL);
        add(RecordingLabel.CAS_AND_DAS, 0.9, 0.3, Suggestion.CONTINUOUS);
        add(RecordingLabel.POOR_QUALITY, 0.9, 0.9, Suggestion.CANNOT_TELL, true);
        add(RecordingLabel.POOR_QUALITY, 0.9, 0.9, Suggestion.BOTH);
        return new Scorer(100, 1).score(DatabaseKind.SPRSOUND, "inter", "test", List.of(), recordings, 0);
    }

    @Test
    void sharesAreThoseCountedByHand() {
        AloneFigures alone = report().alone();
        assertThat(alone.answered()).isEqualTo(6);
        assertThat(alone.coverage().value()).isEqualTo(6.0 / 8);
        // wrong: the suggested normal, the missed one, and the one whose crackles were not named
        assertThat(alone.risk().value()).isEqualTo(3.0 / 6);
        // without "cannot tell" the two doubtful ones are called normal: one right, one wrong
        assertThat(alone.riskOfAll().value()).isEqualTo(4.0 / 8);
        assertThat(alone.missed().value()).isEqualTo(1.0 / 3);
        assertThat(alone.falseSuggestions().value()).isEqualTo(1.0 / 3);
        assertThat(alone.heard().value()).isEqualTo(2.0 / 4);
        assertThat(alone.falseAlarms().value()).isEqualTo(1.0 / 4);
        assertThat(alone.goodRefused().value()).isEqualTo(1.0 / 8);
        assertThat(alone.poorRefused().value()).isEqualTo(1.0 / 2);
        assertThat(alone.poorDeclined().value()).isEqualTo(1.0 / 2);
        assertThat(alone.risk().ci95().low()).isLessThan(0.5);
        assertThat(alone.risk().ci95().high()).isGreaterThan(0.5);
    }

    /** By hand, of six recordings: "none stands out" is no answer, and its own shares say of how many it is said and in how many of those listeners heard a sound. */
    @Test
    void noneStandsOutIsNoAnswerAndIsCountedByItself() {
        add(RecordingLabel.NORMAL, 0.1, 0.1, Suggestion.NONE_STANDS_OUT);
        add(RecordingLabel.NORMAL, 0.1, 0.1, Suggestion.NONE_STANDS_OUT);
        add(RecordingLabel.CAS, 0.2, 0.1, Suggestion.NONE_STANDS_OUT);
        add(RecordingLabel.DAS, 0.1, 0.2, Suggestion.NONE_HEARD);
        add(RecordingLabel.NORMAL, 0.1, 0.1, Suggestion.NONE_HEARD);
        add(RecordingLabel.POOR_QUALITY, 0.1, 0.1, Suggestion.NONE_STANDS_OUT);
        ScoreReport report = new Scorer(100, 1).score(DatabaseKind.SPRSOUND, "inter", "test", List.of(), recordings, 0);
        AloneFigures alone = report.alone();
        assertThat(alone.noneStandsOut().value()).isEqualTo(3.0 / 5);
        assertThat(alone.unfamiliarMissed().value()).isEqualTo(1.0 / 3);
        assertThat(alone.answered()).isEqualTo(2);
        assertThat(alone.coverage().value()).isEqualTo(2.0 / 5);
        assertThat(alone.risk().value()).isEqualTo(1.0 / 2);
        assertThat(alone.missed().value()).isEqualTo(1.0 / 2);
        JsonNode json = ScoreJson.tree(report).path("alone");
        assertThat(json.path("noneStandsOut").asDouble()).isEqualTo(0.6);
        assertThat(json.path("unfamiliarMissed").asDouble()).isEqualTo(1.0 / 3, within(1e-4));
    }

    @Test
    void theCurveDeclinesTheDoubtfulFirst() {
        RiskCoverage curve =
                Objects.requireNonNull(report().alone().riskCoverage().get("continuous"));
        // 0.4 from a half: four, all right; then 0.2 (wrong at 0.7 and at 0.3) and the rest
        assertThat(curve.riskAt(0.5)).isZero();
        assertThat(curve.riskAt(1)).isEqualTo(2.0 / 8, within(1e-12));
    }

    @Test
    void stateTheSameInTextAndFiles() {
        ScoreReport report = report();
        JsonNode json = ScoreJson.tree(report).path("alone");
        assertThat(json.path("coverage").asDouble()).isEqualTo(0.75);
        assertThat(json.at("/riskCoverage/suggestion/points/0/coverage").asDouble())
                .isPositive();
        assertThat(json.at("/ci95/missed")).hasSize(2);
        assertThat(ScoreText.of(report))
                .contains("\"none heard\" although listeners heard a sound           0.3333")
                .contains("risk where only the surest are answered");
    }
}
