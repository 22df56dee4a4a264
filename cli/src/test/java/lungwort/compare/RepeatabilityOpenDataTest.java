package lungwort.compare;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.breath.Breathing;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.OpenData;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;

/** The shipped repeatability: what is in the file, and that its figures can be made again from SPRSound. */
class RepeatabilityOpenDataTest {
    private static final List<Measure> OF_THE_SIGNAL_ALONE = List.of(
            Measure.LEVEL_100_200, Measure.LEVEL_200_400, Measure.LEVEL_400_800, Measure.TILT, Measure.CONTRAST);

    @Test
    void theShippedFileHoldsALimitForWhatItCanJudgeAndSaysHowItWasMade() {
        Repeatability shipped = Repeatability.shipped();
        assertThat(shipped.made()).contains("lungwort compare --measure-repeatability");
        for (Map<Measure, Repeatability.Limit> limits : List.of(shipped.sameSite(), shipped.leftRight())) {
            assertThat(limits).containsKeys(OF_THE_SIGNAL_ALONE.toArray(Measure[]::new));
            assertThat(limits).containsKeys(Measure.RATE, Measure.WHEEZE_SHARE, Measure.CRACKLES_PER_BREATH);
            assertThat(limits)
                    .doesNotContainKeys(
                            Measure.LEVEL_800_1600, Measure.CONTINUOUS_PROBABILITY, Measure.DISCONTINUOUS_PROBABILITY);
            assertThat(limits.values())
                    .allMatch(l -> l.difference() >= 0 && l.patients() >= 20 && l.pairs() >= l.patients());
        }
    }

    /** The measures that need neither breaths nor a model, on all pairs of left and right: the very figures of the file. */
    @Test
    void theFiguresOfLeftAgainstRightCanBeMadeAgain() {
        List<AnnotatedRecording> recordings =
                OpenData.open(DatabaseKind.SPRSOUND).withAudio("train-cv");
        Map<Measure, Repeatability.Limit> again =
                RepeatabilityStudy.limits(RepeatabilityStudy.leftRight(recordings), RepeatabilityOpenDataTest::measure);
        for (Measure measure : OF_THE_SIGNAL_ALONE) {
            Repeatability.Limit made = Objects.requireNonNull(again.get(measure));
            Repeatability.Limit shipped =
                    Objects.requireNonNull(Repeatability.shipped().leftRight().get(measure));
            assertThat(made.difference()).as(measure.id()).isCloseTo(shipped.difference(), within(0.001));
            assertThat(made.withinPersonDeviation())
                    .as(measure.id())
                    .isCloseTo(shipped.withinPersonDeviation(), within(0.001));
            assertThat(made.pairs()).isEqualTo(shipped.pairs());
        }
    }

    private static TakeMeasures measure(AnnotatedRecording r) {
        Recording recording = RecordingReader.read(r.audio());
        return TakeMeasures.of(recording, Takes.examination(Suggestion.CANNOT_TELL, Breathing.NONE, List.of(), false));
    }
}
