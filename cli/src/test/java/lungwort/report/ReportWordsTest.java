package lungwort.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breathing;
import lungwort.diary.Examples;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import org.junit.jupiter.api.Test;

class ReportWordsTest {
    private static Examination read(Quality quality, Suggestion suggestion, String... remarks) {
        Examination like = Examples.examination(0, 0);
        return new Examination(
                like.origin(),
                like.durationSeconds(),
                new SourceFormat("WAV", "PCM", 8_000, 16, 2, List.of(remarks)),
                suggestion,
                like.probabilities(),
                quality,
                new Breathing(List.of(), null),
                List.of(),
                List.of(),
                like.model());
    }

    @Test
    void whatWasMetInReadingTheFileIsToldBesideTheQuality() {
        Quality good = new Quality(true, List.of());
        String cut = "The file is cut: 4.0 s of the 8.0 s it should hold are there.";

        assertThat(ReportWords.quality(read(good, Suggestion.NONE_HEARD))).isEqualTo("could be judged");
        assertThat(ReportWords.quality(read(good, Suggestion.NONE_HEARD, cut))).isEqualTo("could be judged. " + cut);
    }

    @Test
    void remarksFollowTheFindings() {
        Quality noisy = new Quality(false, List.of(new Quality.Finding(QualityIssue.NOISY, true, "2.0 dB")));
        String mean = "The mean of its 2 channels was taken.";

        assertThat(ReportWords.quality(read(noisy, Suggestion.CANNOT_TELL, mean)))
                .startsWith("cannot be judged. " + QualityIssue.NOISY.reason())
                .endsWith("(2.0 dB). " + mean);
    }
}
