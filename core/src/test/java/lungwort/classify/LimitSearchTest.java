package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** By hand from the rule that {@link LimitSearch} states, on answers whose right limits are plain to see. */
class LimitSearchTest {
    private final List<SoundModel.Calibrated> answers = new ArrayList<>();
    private final List<RecordingClass> labels = new ArrayList<>();

    private void add(int count, RecordingClass label, double continuous, double poor) {
        for (int i = 0; i < count; i++) {
            answers.add(new SoundModel.Calibrated(continuous, 0.01, poor));
            labels.add(label);
        }
    }

    private Limits chosen() {
        return LimitSearch.choose(answers.toArray(SoundModel.Calibrated[]::new), labels.toArray(RecordingClass[]::new));
    }

    @Test
    void theBandBeginsWhereTooManySoundsWouldBeMissedAndEndsWhereFewEnoughSuggestionsAreFalse() {
        add(80, RecordingClass.NORMAL, 0.1, 0.02);
        add(10, RecordingClass.NORMAL, 0.3, 0.02);
        add(5, RecordingClass.CONTINUOUS, 0.3, 0.02);
        // with these, "none heard" would miss 5 + 8 of 113: too many
        add(10, RecordingClass.NORMAL, 0.45, 0.02);
        add(8, RecordingClass.CONTINUOUS, 0.45, 0.02);
        // suggested from 0.6: 1 of 21 false; with those at 0.45 it were 11 of 39
        add(1, RecordingClass.NORMAL, 0.6, 0.02);
        add(20, RecordingClass.CONTINUOUS, 0.6, 0.02);
        Limits limits = chosen();
        assertThat(limits.heardFrom()).isEqualTo(0.6);
        assertThat(limits.unsureFrom()).isBetween(0.3, 0.45);
        assertThat(limits.unsure(answers.get(80))).isFalse();
        assertThat(limits.unsure(new SoundModel.Calibrated(0.45, 0, 0))).isTrue();
        assertThat(limits.unsure(new SoundModel.Calibrated(0.6, 0, 0))).isFalse();
    }

    @Test
    void atMostOneInTwentyOfTheGoodIsRefusedAsPoor() {
        for (int i = 0; i < 100; i++) {
            add(1, RecordingClass.NORMAL, 0.1, i < 96 ? 0.01 : 0.35 + 0.1 * (i - 96));
        }
        add(10, RecordingClass.POOR_QUALITY, 0.1, 0.4);
        Limits limits = chosen();
        // the four doubtful ones may be refused, and with them the ten that are poor
        assertThat(limits.poorFrom()).isLessThan(0.35);
        add(4, RecordingClass.NORMAL, 0.1, 0.36);
        // five of 104: those at 0.65, 0.55, 0.45 and two of the five about 0.36, which stand together
        assertThat(chosen().poorFrom()).isBetween(0.36, 0.45);
    }

    @Test
    void boundsHoldWhateverTheAnswersSay() {
        add(10, RecordingClass.NORMAL, 0.9, 0.9);
        add(10, RecordingClass.NORMAL, 0.9, 0.01);
        add(10, RecordingClass.CONTINUOUS, 0.05, 0.01);
        assertThat(chosen()).isEqualTo(new Limits(0.7, 0.2, 0.7));
        answers.clear();
        labels.clear();
        add(10, RecordingClass.NORMAL, 0.01, 0.01);
        add(10, RecordingClass.CONTINUOUS, 0.99, 0.01);
        Limits easy = chosen();
        // nothing lies between: no band is needed
        assertThat(easy.heardFrom()).isBetween(0.4, 0.7);
        assertThat(easy.unsureFrom()).isBetween(0.2, 0.5);
    }

    @Test
    void withoutRecordingsThereIsStillASensibleBand() {
        Limits limits = chosen();
        assertThat(limits.unsureFrom()).isLessThan(limits.heardFrom());
    }
}
