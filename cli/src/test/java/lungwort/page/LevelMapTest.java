package lungwort.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Base64;
import java.util.Random;
import lungwort.audio.Recording;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the page draws lies where the numbers beside it say. */
class LevelMapTest {
    private static Recording tone(int rateHz, double hz, double offset, double gain) {
        Random random = new Random(5);
        double[] x = new double[8 * rateHz];
        for (int i = 0; i < x.length; i++) {
            double t = (double) i / rateHz;
            double tone = t >= 3 && t < 5 ? 0.03 * Math.sin(2 * Math.PI * hz * t) : 0;
            x[i] = offset + gain * (0.001 * random.nextGaussian() + tone);
        }
        return new Recording(x, rateHz, "tone");
    }

    private static byte[] levels(JsonNode map) {
        return Base64.getDecoder().decode(map.get("levels").asText());
    }

    @ParameterizedTest
    @CsvSource({"4000, 250", "8000, 700", "44100, 1800"})
    void aToneIsLoudAtItsTimeAndFrequencyOnly(int rateHz, double hz) {
        JsonNode map = LevelMap.of(tone(rateHz, hz, 0, 1));
        byte[] levels = levels(map);
        int bins = map.get("bins").asInt();
        double binHz = map.get("topHz").asDouble() / (bins - 1);
        double seconds = 0;
        double weight = 0;
        for (int f = 0; f < map.get("frames").asInt(); f++) {
            double time = map.get("firstSeconds").asDouble()
                    + f * map.get("hopSeconds").asDouble();
            int loudest = 0;
            for (int b = 0; b < bins; b++) {
                loudest = (levels[f * bins + b] & 0xFF) > (levels[f * bins + loudest] & 0xFF) ? b : loudest;
            }
            if (time > 3.1 && time < 4.9) {
                assertThat(loudest * binHz).as("at %.2f s", time).isCloseTo(hz, within(binHz));
            }
            int here = levels[f * bins + (int) Math.round(hz / binHz)] & 0xFF;
            weight += here > 200 ? 1 : 0;
            seconds += here > 200 ? time : 0;
        }
        assertThat(seconds / weight).isCloseTo(4, within(0.02));
        assertThat(weight * map.get("hopSeconds").asDouble()).isCloseTo(2, within(0.08));
    }

    @Test
    void gainAndOffsetChangeNothingToSee() {
        byte[] plain = levels(LevelMap.of(tone(8000, 700, 0, 1)));
        byte[] other = levels(LevelMap.of(tone(8000, 700, 0.4, 0.1)));
        int most = 0;
        for (int i = 0; i < plain.length; i++) {
            most = Math.max(most, Math.abs((plain[i] & 0xFF) - (other[i] & 0xFF)));
        }
        assertThat(most).isLessThanOrEqualTo(1);
    }

    @Test
    void aRecordingShorterThanAFrameHasNothingToDraw() {
        JsonNode map = LevelMap.of(new Recording(new double[100], 4000, "short"));
        assertThat(map.get("frames").asInt()).isZero();
        assertThat(levels(map)).isEmpty();
    }
}
