package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import lungwort.audio.SourceFormat;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.classify.HeardEvent;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.sound.Crackle;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ExaminationTest {
    /** A fault of the recording is mended before the person is asked to cough (common practice); doubt that a good recording leaves is no fault, and a sound that is told is told. */
    @ParameterizedTest
    @CsvSource({
        "true, TOO_QUIET, CANNOT_TELL, true",
        "true, NOISY, CANNOT_TELL, true",
        "true, DROPOUTS, CANNOT_TELL, true",
        "false, CLIPPED, CANNOT_TELL, true",
        "true, HUM, CANNOT_TELL, false",
        "true, , CANNOT_TELL, false",
        "true, TOO_QUIET, DISCONTINUOUS, false",
        "true, , NONE_HEARD, false"
    })
    void faultsAreMendedByAnotherRecording(boolean usable, QualityIssue issue, Suggestion suggestion, boolean again) {
        List<Quality.Finding> findings = Stream.ofNullable(issue)
                .map(i -> new Quality.Finding(i, !usable, ""))
                .toList();
        Examination examination = examination(suggestion, new Quality(usable, findings), List.of(), List.of());
        assertThat(examination.recordAgain()).isEqualTo(again);
    }

    private static Examination examination(
            Suggestion suggestion, Quality quality, List<Evidence> evidence, List<String> reasons) {
        return new Examination(
                "worked example",
                15,
                SourceFormat.memory(4000),
                suggestion,
                new Examination.Probabilities(0.2, 0.2, 0.1),
                quality,
                new Breathing(List.of(), null),
                evidence,
                reasons,
                "none");
    }

    /** "0 crackles measured" reads as if there were none. It is said only where the suggestion tells, not of a sound that it names, and not where bursts were measured that nobody goes by (common practice). */
    @ParameterizedTest
    @CsvSource({
        "NONE_HEARD, false, true, true",
        "NONE_HEARD, true, true, false",
        "CONTINUOUS, true, false, false",
        "CONTINUOUS, false, false, true",
        "DISCONTINUOUS, false, true, false",
        "BOTH, false, false, false",
        "CANNOT_TELL, false, false, false",
        "CANNOT_TELL, true, false, false",
        "NONE_STANDS_OUT, false, false, false"
    })
    void aZeroIsToldOnlyWhereItMeansNone(Suggestion suggestion, boolean bursts, boolean tones, boolean crackles) {
        List<String> reasons = bursts
                ? new ClearSounds(false, false, false, false, List.of(1.5, 6.0), false).reasons(false, false)
                : List.of("Nothing resembles an extra sound.");
        Quality good = new Quality(true, List.of());

        Examination examination = examination(suggestion, good, List.of(), reasons);

        assertThat(examination.tellsNumber(true)).isEqualTo(tones);
        assertThat(examination.tellsNumber(false)).isEqualTo(crackles);
        assertThat(examination.listenFor()).hasSize(bursts ? 1 : 0);
    }

    /** In a recording unlike what was learnt from the model can miss most sounds: beside the kind that it names a zero, or a low probability, of the other would read as if there were none. */
    @ParameterizedTest
    @CsvSource({
        "CONTINUOUS, true, false",
        "DISCONTINUOUS, false, true",
        "BOTH, true, true",
        "NONE_STANDS_OUT, false, false",
        "CANNOT_TELL, false, false"
    })
    void unlikeWhatWasLearntOnlyWhatIsNamedHasNumbers(Suggestion suggestion, boolean continuous, boolean crackles) {
        Quality good = new Quality(true, List.of());
        Examination unlike = examination(suggestion, good, List.of(), List.of(Findings.UNFAMILIAR));
        assertThat(unlike.unlikeLearnt()).isTrue();
        assertThat(unlike.tellsNumber(true)).isFalse();
        assertThat(unlike.tellsNumber(false)).isFalse();
        assertThat(unlike.tellsProbability(true)).isEqualTo(continuous);
        assertThat(unlike.tellsProbability(false)).isEqualTo(crackles);

        Crackle crackle = new Crackle(SoundKind.FINE_CRACKLE, 1, 1.006, 0.7, 6, 1, 10);
        List<Evidence> evidence = List.of(new Evidence(crackle, BreathPhase.INSPIRATION, 0.8));
        assertThat(examination(suggestion, good, evidence, List.of(Findings.UNFAMILIAR))
                        .tellsNumber(false))
                .as("what counts is told")
                .isTrue();
    }

    /** Where hardly a whole breath was found, a sound that comes with the breath had none to come with. */
    @Test
    void noneInHardlyABreathTellsNoZero() {
        Quality few = new Quality(true, List.of(new Quality.Finding(QualityIssue.TOO_FEW_BREATHS, false, "0 whole")));

        Examination none = examination(Suggestion.NONE_HEARD, few, List.of(), List.of());
        assertThat(none.noneInHardlyABreath()).isTrue();
        assertThat(none.tellsNumber(true)).isFalse();
        assertThat(none.tellsNumber(false)).isFalse();
        assertThat(examination(Suggestion.CONTINUOUS, few, List.of(), List.of()).noneInHardlyABreath())
                .as("what is there is there")
                .isFalse();
        assertThat(examination(Suggestion.CONTINUOUS, few, List.of(), List.of()).tellsNumber(false))
                .as("crackles had no breath to come with either")
                .isFalse();
        assertThat(examination(Suggestion.NONE_HEARD, new Quality(true, List.of()), List.of(), List.of())
                        .noneInHardlyABreath())
                .isFalse();
    }

    /** Talk is full of tones, and says nothing of the chest (common practice). */
    @Test
    void whatCountsIsToldAndARefusedRecordingCountsNothing() {
        Crackle crackle = new Crackle(SoundKind.FINE_CRACKLE, 1, 1.006, 0.7, 6, 1, 10);
        List<Evidence> evidence = List.of(new Evidence(crackle, BreathPhase.INSPIRATION, 0.8));
        Quality refused = new Quality(false, List.of(new Quality.Finding(QualityIssue.NOISY, true, "")));

        assertThat(examination(Suggestion.CANNOT_TELL, new Quality(true, List.of()), evidence, List.of())
                        .tellsNumber(false))
                .isTrue();
        assertThat(examination(Suggestion.CANNOT_TELL, refused, evidence, List.of())
                        .tellsNumber(false))
                .isFalse();
    }

    /** Each reason that leaves something to the listener is known as one; a suggestion that goes by it leaves nothing. */
    @Test
    void reasonsThatAskToListenAreKnown() {
        assertThat(new ClearSounds(false, false, true, true, List.of(1.5), false).reasons(false, false))
                .hasSize(3)
                .allMatch(ClearSounds::leftToTheListener);
        assertThat(new ClearSounds(true, true, false, false, List.of(1.5), true).reasons(false, false))
                .isNotEmpty()
                .noneMatch(ClearSounds::leftToTheListener);
        assertThat(new ClearSounds(false, false, false, false, List.of(1.5), true).reasons(false, false))
                .isNotEmpty()
                .noneMatch(ClearSounds::leftToTheListener);
    }

    /** A file's name may be a person's; nothing else of the examination changes with it. */
    @Test
    void underAnotherNameAllElseIsTheSame() {
        Crackle crackle = new Crackle(SoundKind.FINE_CRACKLE, 1, 1.006, 0.7, 6, 1, 10);
        Examination examination = new Examination(
                "a person.wav",
                15,
                SourceFormat.memory(4000),
                Suggestion.BOTH,
                new Examination.Probabilities(0.7, 0.6, 0.1),
                new Quality(true, List.of(new Quality.Finding(QualityIssue.HUM, false, "50 Hz"))),
                new Breathing(List.of(), null),
                List.of(new Evidence(crackle, BreathPhase.INSPIRATION, 0.8)),
                List.of(new HeardEvent(1, 2, true, 0.4), new HeardEvent(1.5, 2.5, false, 0.9)),
                List.of(new BreathingPause(3, 14)),
                List.of("To the learnt model it sounds so."),
                "none");

        Examination titled = examination.titled("recording 1");

        assertThat(titled.origin()).isEqualTo("recording 1");
        assertThat(titled).isNotEqualTo(examination);
        assertThat(titled.titled("a person.wav")).isEqualTo(examination);
    }
}
