package lungwort.feature;

import static org.assertj.core.api.Assertions.assertThat;

import lungwort.signal.Butterworth;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MelImageTest {
    /** Noise that swells every 2.5 s, as breathing does, with a tone in it. */
    private static double[] breathing(double seconds) {
        double[] x = Probe.noise(seconds, 0.02, 72);
        for (int i = 0; i < x.length; i++) {
            double t = (double) i / Probe.RATE;
            x[i] *= 1.2 + Math.sin(2 * Math.PI * t / 2.5);
            x[i] += t > 3 && t < 3.6 ? 0.05 * Math.sin(2 * Math.PI * 400 * t) : 0;
        }
        return x;
    }

    private static double meanDifference(float[][] a, float[][] b) {
        assertThat(b).hasDimensions(a.length, a[0].length);
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            for (int f = 0; f < a[i].length; f++) {
                sum += Math.abs(a[i][f] - b[i][f]);
            }
        }
        return sum / (a.length * a[0].length);
    }

    @Test
    void tenSecondsAreFiveHundredFramesOfTwentyMillisecondsAndOne() {
        assertThat(MelImage.of(breathing(10))).hasDimensions(64, 501);
    }

    /** A tone of 400 Hz stands out in the band that holds it, when it sounds. */
    @Test
    void aToneStandsWhereItSounds() {
        float[][] image = MelImage.of(breathing(10));
        int highest = 0;
        for (int b = 0; b < MelImage.BANDS; b++) {
            highest = image[b][165] > image[highest][165] ? b : highest;
        }
        lungwort.signal.MelBands bands = lungwort.signal.MelBands.of(32, 60, 1950, 257, 15.625);
        assertThat(bands.centreHz(highest)).isBetween(370.0, 430.0);
        assertThat(image[highest][165]).isGreaterThan(image[highest][400] + 0.8f);
    }

    /** A click of 2 ms stands out more in windows of 16 ms than in those of 64 ms, and only where it sounds; also beyond the frames that are looked at together. */
    @ParameterizedTest
    @ValueSource(doubles = {0.06, 4.0, 9.98, 10.0, 12.3, 15.9})
    void aClickStandsOutInShortWindows(double seconds) {
        double[] x = Probe.noise(16, 0.02, 72);
        int at = (int) Math.min(x.length - 16, seconds * Probe.RATE);
        for (int i = at; i < at + 16; i++) {
            x[i] += (i - at) % 4 < 2 ? 0.3 : -0.3;
        }
        float[][] image = MelImage.of(x);
        int frame = (int) Math.round(seconds / MelImage.HOP_SECONDS);
        double inLong = mean(image, 20, frame);
        double inShort = mean(image, MelImage.BANDS + 20, frame);
        assertThat(inShort).isGreaterThan(inLong + 0.1);
        assertThat(mean(image, MelImage.BANDS + 20, frame + (frame < 5 ? 5 : -5)))
                .isLessThan(inShort - 0.5);
    }

    /** Of the band and the eleven above it. */
    private static double mean(float[][] image, int from, int frame) {
        double sum = 0;
        for (int b = from; b < from + 12; b++) {
            sum += image[b][frame] / 12;
        }
        return sum;
    }

    /** Gain multiplies every frame of every band by the same number. */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5, 10})
    void gainCancels(double gain) {
        double[] x = breathing(10);
        double[] louder = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            louder[i] = gain * x[i];
        }
        // A sixteenth where rounding falls to the other side.
        assertThat(meanDifference(MelImage.of(x), MelImage.of(louder))).isLessThan(1e-3);
    }

    /** A fixed filter multiplies each band by about the same number in every frame; what is left is the tilt inside a band. Half a step of 0.75 dB is the rounding alone. */
    @Test
    void colourCancels() {
        double[] x = breathing(10);
        // 6 dB less for each octave above 200 Hz.
        double[] coloured = Butterworth.lowPass(1, 200, Probe.RATE).filtFilt(x);
        double difference = meanDifference(MelImage.of(x), MelImage.of(coloured));
        double other = meanDifference(MelImage.of(x), MelImage.of(Probe.noise(10, 0.02, 73)));
        assertThat(difference).isLessThan(0.04);
        assertThat(other).isGreaterThan(10 * difference);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.001, 0.05, 0.31, 1, 3.7})
    void anyLengthAndSilenceGiveFiniteSixteenthsInRange(double seconds) {
        for (double level : new double[] {0, 0.1}) {
            float[][] image = MelImage.of(Probe.noise(seconds, level, 74));
            assertThat(image).hasNumberOfRows(MelImage.ROWS);
            assertThat(image[0]).hasSizeGreaterThanOrEqualTo(MelImage.LEAST_FRAMES);
            for (float[] band : image) {
                for (float v : band) {
                    assertThat(v).isBetween(MelImage.LOWEST, MelImage.HIGHEST);
                    assertThat(v * 16).isEqualTo(Math.round(v * 16));
                    if (level == 0) {
                        assertThat(v).isZero();
                    }
                }
            }
        }
    }

    /** A knock in a recording that is else all but silent reaches the ends of the scale; bytes keep them too. */
    @Test
    void bytesGiveTheImageBackAtTheEndsOfTheScaleToo() {
        double[] x = Probe.noise(4, 0.001, 75);
        for (int i = 16_000; i < 17_000; i++) {
            x[i] *= 1e6;
        }
        java.util.Arrays.fill(x, 24_000, 28_000, 0);
        float[][] image = MelImage.of(x);
        float highest = 0;
        float lowest = 0;
        for (float v : image[20]) {
            highest = Math.max(highest, v);
            lowest = Math.min(lowest, v);
        }
        assertThat(highest).isEqualTo(MelImage.HIGHEST);
        assertThat(lowest).isEqualTo(MelImage.LOWEST);
        assertThat(MelImage.of(MelImage.bytes(image))).isDeepEqualTo(image);
    }

    @Test
    void marksAtLeastOneFrameAndNoneBeyondTheEnds() {
        boolean[] marked = new boolean[20];
        MelImage.mark(marked, -0.3, 0.02);
        MelImage.mark(marked, 0.101, 0.102);
        MelImage.mark(marked, 0.2, 0.26);
        MelImage.mark(marked, 0.38, 9);
        MelImage.mark(marked, 7, 9);
        for (int f = 0; f < marked.length; f++) {
            assertThat(marked[f]).as("frame %d", f).isEqualTo(f == 0 || f == 5 || f >= 10 && f < 13 || f == 19);
        }
    }
}
