package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breathing;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
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
        Examination examination = new Examination(
                "worked example",
                15,
                SourceFormat.memory(4000),
                suggestion,
                new Examination.Probabilities(0.2, 0.2, 0.1),
                new Quality(usable, findings),
                new Breathing(List.of(), null),
                List.of(),
                List.of(),
                "none");
        assertThat(examination.recordAgain()).isEqualTo(again);
    }
}
