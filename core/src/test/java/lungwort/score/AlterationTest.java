package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import lungwort.audio.Recording;
import lungwort.signal.Spectrogram;
import org.junit.jupiter.api.Test;

class AlterationTest {
    private static Recording noise() {
        SplittableRandom random = new SplittableRandom(101);
        return new Recording(random.doubles(40_000).map(v -> 0.1 * (v - 0.5)).toArray(), 8000, "noise");
    }

    private static double level(Recording r, double lowHz, double highHz) {
        Spectrogram s = Spectrogram.of(r.samples(), r.sampleRateHz(), 512, 512, 512);
        double sum = 0;
        for (int f = 0; f < s.frames(); f++) {
            sum += s.bandPower(f, lowHz, highHz);
        }
        return 10 * Math.log10(sum / s.frames());
    }

    @Test
    void coloursWithinTenDecibelsAndIsTheSameForASeed() {
        Recording original = noise();
        for (long seed = 1; seed <= 12; seed++) {
            Recording altered = Alteration.of(original, seed);
            assertThat(altered.samples())
                    .isEqualTo(Alteration.of(original, seed).samples());
            assertThat(altered.length()).isEqualTo(original.length());
            // Below the lowest low-pass; added noise lies 10 dB under the level at most, so it lifts no band by much
            // more than the colour.
            double change = level(altered, 250, 500) - level(original, 250, 500);
            assertThat(change).as("seed %d", seed).isBetween(-11.0, 11.5);
        }
    }

    @Test
    void differentSeedsDiffer() {
        assertThat(Alteration.of(noise(), 1).samples())
                .isNotEqualTo(Alteration.of(noise(), 2).samples());
    }
}
