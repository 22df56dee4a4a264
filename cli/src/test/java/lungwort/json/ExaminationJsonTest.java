package lungwort.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import lungwort.BadInput;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.classify.HeardEvent;
import lungwort.examine.BreathingPause;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.sound.ContinuousSound;
import lungwort.sound.ContinuousSound.TrackPoint;
import lungwort.sound.Crackle;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ExaminationJsonTest {
    /** A zero that says nothing is null, wherever it stands; what counts is a number. */
    @Test
    void whatSaysNothingIsNull() {
        Examination e = WHEEZE_AND_CRACKLE;
        Breath whole = e.breathing().breaths().get(0);
        Breath last = new Breath(3.25, 6, List.of(new PhaseSpan(3.25, 6, BreathPhase.INSPIRATION, 0.8)), 0.9);
        Breathing breathing = new Breathing(List.of(whole, last), e.breathing().rate());
        List<Evidence> wheeze = e.evidence().stream()
                .filter(item -> item.sound() instanceof ContinuousSound)
                .toList();
        Examination alone = new Examination(
                e.origin(),
                e.durationSeconds(),
                e.source(),
                Suggestion.CONTINUOUS,
                e.probabilities(),
                e.quality(),
                breathing,
                wheeze,
                List.of(lungwort.diary.Examples.UNLIKE),
                e.model());

        JsonNode node = ExaminationJson.toJson(alone);

        assertThat(node.at("/tellsNumber/continuous").asBoolean()).isTrue();
        assertThat(node.at("/tellsNumber/crackles").asBoolean(true)).isFalse();
        assertThat(node.at("/tellsProbability/continuous").asBoolean()).isTrue();
        assertThat(node.at("/tellsProbability/crackles").asBoolean(true)).isFalse();
        assertThat(node.at("/perBreath/continuousShare").asDouble()).isPositive();
        assertThat(node.at("/perBreath/crackles").isNull()).isTrue();
        assertThat(node.at("/byPhase")).isNotEmpty().allSatisfy(phase -> {
            assertThat(phase.get("crackles").isNull()).isTrue();
            assertThat(phase.get("continuousShare").isNumber()).isTrue();
        });
        assertThat(node.at("/perBreath/monophonic").asInt()).isEqualTo(1);
        assertThat(node.at("/perBreath/polyphonic").isInt()).isTrue();
        assertThat(ExaminationJson.fromJson(node)).isEqualTo(alone);
        assertThat(ExaminationJson.toJson(e).at("/byPhase/0/crackles").isNumber())
                .isTrue();

        JsonNode crackles = ExaminationJson.toJson(new Examination(
                e.origin(),
                e.durationSeconds(),
                e.source(),
                Suggestion.DISCONTINUOUS,
                e.probabilities(),
                e.quality(),
                breathing,
                e.evidence().stream()
                        .filter(item -> item.sound() instanceof Crackle)
                        .toList(),
                List.of(lungwort.diary.Examples.UNLIKE),
                e.model()));
        assertThat(crackles.at("/tellsNumber/continuous").asBoolean(true)).isFalse();
        assertThat(crackles.at("/perBreath/crackles").asDouble()).isPositive();
        for (String none : List.of("continuousShare", "monophonic", "polyphonic")) {
            assertThat(crackles.at("/perBreath/" + none).isNull()).as(none).isTrue();
        }
    }

    private static final Examination WHEEZE_AND_CRACKLE = new Examination(
            "left back.wav",
            14.900000000000002,
            new SourceFormat("WAV", "PCM", 44_100, 24, 2, List.of("The mean of its 2 channels was taken.")),
            Suggestion.BOTH,
            new Examination.Probabilities(0.9, 1.0 / 3, 0.05),
            new Quality(
                    true,
                    List.of(new Quality.Finding(QualityIssue.TOO_QUIET, false, "-52 dB of full scale")),
                    List.of(new Quality.Event(Quality.EventKind.COUGH, 4.2, 4.6))),
            new Breathing(
                    List.of(new Breath(
                            0.5,
                            3.25,
                            List.of(
                                    new PhaseSpan(0.5, 1.5, BreathPhase.INSPIRATION, 0.8),
                                    new PhaseSpan(1.5, 3.0, BreathPhase.EXPIRATION, 0.7)),
                            0.9)),
                    new Breathing.Rate(21.8, 20, 24, 0.75)),
            List.of(
                    new Evidence(
                            new ContinuousSound(
                                    SoundKind.WHEEZE,
                                    1.6,
                                    2.1,
                                    List.of(new TrackPoint(1.6, 410), new TrackPoint(1.7, 402.5)),
                                    406.25,
                                    2,
                                    false,
                                    0.95,
                                    14.5),
                            BreathPhase.EXPIRATION,
                            0.25),
                    new Evidence(
                            new Crackle(SoundKind.FINE_CRACKLE, 3.1, 3.106, 0.7, 5.5, 0.9, 12),
                            BreathPhase.UNKNOWN,
                            Double.NaN)),
            List.of(new HeardEvent(1.44, 2.18, true, 0.625), new HeardEvent(3, 3.5, false, 1.0 / 3)),
            List.of(new BreathingPause(4.5, 13.25), new BreathingPause(20, 27.5, BreathingPause.Cut.END)),
            List.of("a wheeze of 0.5 s at 406 Hz", "one fine crackle"),
            "model-1");

    @Test
    void everythingComesBackAsItWas() {
        String text = Json.pretty(ExaminationJson.toJson(WHEEZE_AND_CRACKLE));

        assertThat(ExaminationJson.fromJson(Json.parse(text, "text"))).isEqualTo(WHEEZE_AND_CRACKLE);
    }

    /** Diaries hold examinations that were made before pauses were looked for. */
    @Test
    void anExaminationWithoutPausesIsReadAsOneWithNone() {
        ObjectNode old = ExaminationJson.toJson(WHEEZE_AND_CRACKLE);
        old.remove("pauses");

        assertThat(ExaminationJson.fromJson(old).pauses()).isEmpty();
    }

    /** Diaries hold pauses that were found before those at a recording's ends were told. */
    @Test
    void aPauseThatDoesNotSayWhatCutsItIsCutByNothing() {
        ObjectNode old = ExaminationJson.toJson(WHEEZE_AND_CRACKLE);
        ((ObjectNode) old.get("pauses").get(0)).remove("cut");

        assertThat(ExaminationJson.fromJson(old)).isEqualTo(WHEEZE_AND_CRACKLE);
    }

    @Test
    void aPauseThatIsCutSaysSo() {
        JsonNode pause =
                ExaminationJson.toJson(WHEEZE_AND_CRACKLE).get("pauses").get(1);

        assertThat(pause.get("cut").asText()).isEqualTo("end");
        assertThat(pause.get("words").asText())
                .isEqualTo("From 20.0 s to the end of the recording, for at least 7 s, no breath was found.");
    }

    @Test
    void anExaminationWithNothingMeasuredComesBackToo() {
        Examination nothing = new Examination(
                "silence",
                0,
                SourceFormat.memory(4000),
                Suggestion.CANNOT_TELL,
                new Examination.Probabilities(0, 0, 1),
                new Quality(false, List.of(new Quality.Finding(QualityIssue.SILENT, true, "all samples are zero"))),
                Breathing.NONE,
                List.of(),
                List.of(),
                "model-1");

        JsonNode json = Json.parse(Json.compact(ExaminationJson.toJson(nothing)), "text");

        assertThat(json.get("respiratoryRatePerMinute").isNull()).isTrue();
        assertThat(ExaminationJson.fromJson(json)).isEqualTo(nothing);
    }

    @Test
    void theKeysThatOthersBuildOnAreThere() {
        JsonNode json = ExaminationJson.toJson(List.of(WHEEZE_AND_CRACKLE)).get(0);

        assertThat(json.get("file").asText()).isEqualTo("left back.wav");
        assertThat(json.get("suggestion").asText()).isEqualTo("both");
        assertThat(json.at("/probabilities/continuous").asDouble()).isEqualTo(0.9);
        assertThat(json.at("/quality/usable").asBoolean()).isTrue();
        assertThat(json.at("/quality/issues/0").asText()).isEqualTo("too-quiet");
        assertThat(json.at("/breaths/0/endSeconds").asDouble()).isEqualTo(3.25);
        assertThat(json.get("respiratoryRatePerMinute").asDouble()).isEqualTo(21.8);
        assertThat(json.at("/evidence/0/kind").asText()).isEqualTo("wheeze");
        assertThat(json.at("/evidence/1/startSeconds").asDouble()).isEqualTo(3.1);
        assertThat(json.get("caution").asText()).isEqualTo(Examination.CAUTION);
    }

    @Test
    void keysItDoesNotKnowArePassedOver() {
        ObjectNode json = ExaminationJson.toJson(WHEEZE_AND_CRACKLE);
        json.put("addedLater", true);

        assertThat(ExaminationJson.fromJson(json)).isEqualTo(WHEEZE_AND_CRACKLE);
    }

    @Test
    void aMissingFieldIsASentence() {
        ObjectNode json = ExaminationJson.toJson(WHEEZE_AND_CRACKLE);
        json.remove("model");

        assertThatThrownBy(() -> ExaminationJson.fromJson(json))
                .isInstanceOf(BadInput.class)
                .hasMessage("the field \"model\" is missing.");
    }

    @Test
    void anUnknownNameOrAnImpossibleValueIsASentence() {
        ObjectNode named = ExaminationJson.toJson(WHEEZE_AND_CRACKLE);
        named.put("suggestion", "healthy");
        ObjectNode backwards = ExaminationJson.toJson(WHEEZE_AND_CRACKLE);
        ((ObjectNode) backwards.at("/evidence/1")).put("endSeconds", 1);

        assertThatThrownBy(() -> ExaminationJson.fromJson(named))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no suggestion is called healthy");
        assertThatThrownBy(() -> ExaminationJson.fromJson(backwards))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("not possible");
    }

    @Test
    void brokenTextIsASentenceWithItsPlace() {
        assertThatThrownBy(() -> Json.parse("{\n \"file\": }", "notes.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("notes.json is not readable JSON at line 2, column ");
        assertThatThrownBy(() -> Json.parse("", "notes.json")).isInstanceOf(BadInput.class);
    }

    /** A sentence for the person who wrote the file, without what the reader tells programmers. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "DEEP",
                "{\"a\": NaN}",
                "LONG",
                "{\"a\": \"\u0007\"}",
                "{\"a\": 01}",
                "{'a': 1}",
                "{\"a\": 1",
                "TRUE"
            })
    void whatIsToldOfBrokenTextIsForPeople(String text) {
        String broken = text.equals("DEEP") ? "[".repeat(10_000) : text.equals("LONG") ? "1".repeat(5_000) : text;
        assertThatThrownBy(() -> Json.parse(broken, "notes.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("notes.json is not readable JSON")
                .hasMessageEndingWith(".")
                .message()
                .doesNotContain("`", "StreamRead", "Feature", "[Source", "..");
    }

    /** Of two danger signs' answers under one name the first would be lost without a word. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"yes\": [\"blue\"], \"yes\": []}",
                "{\"yes\": []} {\"yes\": [\"blue\"]}",
                "{\"yes\": []} \"blue\""
            })
    void whatWouldBePassedOverIsRefused(String text) {
        assertThatThrownBy(() -> Json.parse(text, "round.json"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("round.json is not readable JSON at line 1");
    }

    @Test
    void aByteOrderMarkBeforeTheTextIsPassedOver() {
        assertThat(Json.parse("\uFEFF{\"a\": 1}", "notes.json").get("a").asInt())
                .isEqualTo(1);
    }
}
