package lungwort.quality;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.practice.PracticeCase;
import lungwort.practice.PracticeScenes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class LiveQualityTest {
    static List<PracticeCase> all() {
        return PracticeScenes.all();
    }

    @ParameterizedTest
    @MethodSource("all")
    void theSamplesGivenInBlocksGiveTheVerdictOfTheWhole(PracticeCase one) {
        Recording recording = one.scene().synthesise().recording();
        double[] samples = recording.samples();
        QualityMeasures whole = QualityCheck.measure(recording);
        for (int block : new int[] {160, 1237, recording.sampleRateHz()}) {
            LiveQuality live = new LiveQuality(recording.sampleRateHz());
            for (int at = 0; at < samples.length; at += block) {
                live.push(Arrays.copyOfRange(samples, at, Math.min(samples.length, at + block)));
            }
            assertThat(live.measures()).isEqualTo(whole);
            assertThat(live.quality()).isEqualTo(QualityCheck.judge(whole));
        }
    }

    @Test
    void aGrowingRecordingIsJudgedAsTheShorterOneWouldBe() {
        Recording recording = PracticeScenes.of("talking").scene().synthesise().recording();
        LiveQuality live = new LiveQuality(recording.sampleRateHz());
        for (int second = 0; second < 15; second++) {
            live.push(recording.slice(second, second + 1).samples());
            assertThat(live.quality()).isEqualTo(QualityCheck.check(recording.slice(0, second + 1)));
        }
    }

    @Test
    void beforeTheFirstSampleItIsTooShortAndSilent() {
        assertThat(new LiveQuality(8000).quality().usable()).isFalse();
    }
}
