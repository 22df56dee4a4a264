package lungwort.heart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import lungwort.audio.Recording;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScene;
import lungwort.practice.Truth;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** All truth here is synthesised. */
class HeartFinderTest {
    @ParameterizedTest
    @ValueSource(doubles = {45, 60, 75, 90, 120, 150, 180})
    void everyBeatOfAPlainHeartIsFoundAndTheRateIsRight(double perMinute) {
        PracticeRecording scene =
                PracticeScene.scene("heart").heart(perMinute, -20).seed(5).synthesise();
        HeartBeats heart = HeartFinder.find(scene.recording());
        HeartBeats.Rate rate = Objects.requireNonNull(heart.rate());
        assertThat(rate.perMinute()).isBetween(0.97 * perMinute, 1.03 * perMinute);
        assertThat(rate.confidence()).isGreaterThan(0.2);
        for (Truth.Beat beat : scene.truth().beats()) {
            if (beat.firstSeconds() < 14.8) {
                assertThat(heart.beats()).anyMatch(b -> Math.abs(b.seconds() - beat.firstSeconds() - 0.04) < 0.06);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"1", "2", "3", "4"})
    void breathAloneHasNoHeartThatIsBelieved(long seed) {
        PracticeRecording scene = PracticeScene.scene("no heart").seed(seed).synthesise();
        HeartBeats.Rate rate = HeartFinder.find(scene.recording()).rate();
        assertThat(rate == null || rate.confidence() < 0.2).isTrue();
    }

    @Test
    void silenceAndShortRecordingsHaveNoHeart() {
        assertThat(HeartFinder.find(new Recording(new double[0], 4000, "empty")))
                .isEqualTo(HeartBeats.NONE);
        assertThat(HeartFinder.find(new Recording(new double[40_000], 4000, "zeros")))
                .isEqualTo(HeartBeats.NONE);
        assertThat(HeartFinder.find(new Recording(new double[8000], 4000, "two seconds")))
                .isEqualTo(HeartBeats.NONE);
    }
}
