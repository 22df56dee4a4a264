package lungwort.feature;

import static lungwort.feature.Probe.RATE;
import static lungwort.feature.Probe.extractor;
import static lungwort.feature.Probe.feature;
import static lungwort.feature.Probe.noise;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import lungwort.audio.Recording;
import lungwort.signal.ChestViews;
import lungwort.sound.SoundSearch;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Damped pulses and tones in white noise, at known times: what is counted is what was put in. */
class MeasuredFeaturesTest {
    /**
     * Fine and coarse crackles fill different width classes. CORSA [S]: fine 2CD below 10 ms, coarse above; the largest deflection is about a quarter of the two cycles, so 5 ms has one of about 1.2 ms
     * and 12 ms one of about 2.8 ms.
     */
    @ParameterizedTest
    @CsvSource({"5, burst.width1.0ms.rate, burst.width2.0ms.rate", "12, burst.width2.0ms.rate, burst.width1.0ms.rate"})
    void cracklesAreCountedByTheirWidth(double twoCycleMs, String own, String other) {
        double[] x = noise(6, 0.003, 5);
        for (int k = 0; k < 8; k++) {
            crackle(x, 2 + 0.12 * k, twoCycleMs, 0.2);
        }
        FeatureExtractor e = extractor(x);
        float[] with = e.segment(1.9, 3.1);
        assertThat(feature(with, own)).isBetween(5 / 1.2, 9 / 1.2);
        assertThat(feature(with, other)).isLessThan(2 / 1.2);
        assertThat(feature(with, "crackle.rate")).isBetween(5 / 1.2, 9 / 1.2);
        assertThat(feature(with, "crackle.prominence.top3")).isGreaterThan(20);
        float[] without = e.segment(4, 5.2);
        assertThat(feature(without, "crackle.rate")).isZero();
        assertThat(feature(without, "crackle.rate.relative")).isNegative();
    }

    /** CORSA [S]: a wheeze lies above 100 Hz and lasts over 100 ms. */
    @ParameterizedTest
    @ValueSource(doubles = {180, 400, 800})
    void aToneIsListedWithItsPitchAndLength(double hz) {
        double[] x = noise(6, 0.01, 6);
        for (int i = 2 * RATE; i < 2.5 * RATE; i++) {
            x[i] += 0.05 * Math.sin(2 * Math.PI * hz * i / RATE);
        }
        FeatureExtractor e = extractor(x);
        float[] with = e.segment(1.5, 3);
        assertThat(feature(with, "ridgeTone.hz")).isCloseTo(hz, within(0.03 * hz));
        assertThat(feature(with, "ridgeTone.strongestLength")).isCloseTo(0.5, within(0.06));
        assertThat(feature(with, "ridgeTone.strongestShare")).isCloseTo(0.5 / 1.5, within(0.05));
        assertThat(feature(with, "ridgeTone.strength4.rate")).isPositive();
        assertThat(feature(e.segment(4, 5.5), "ridgeTone.strength4.rate")).isZero();
    }

    /** Each sound is held against what surrounds it: a device's gain changes nothing. */
    @Test
    void gainChangesNothing() {
        double[] x = noise(5, 0.01, 7);
        crackle(x, 2, 6, 0.3);
        double[] soft = x.clone();
        for (int i = 0; i < soft.length; i++) {
            soft[i] *= 0.125;
        }
        float[] loud = extractor(x).segment(1, 3);
        float[] quiet = extractor(soft).segment(1, 3);
        int first = FeatureCatalogue.segment().indexOf("burst.score8.rate");
        for (int i = first; i < loud.length; i++) {
            assertThat((double) quiet[i])
                    .as(FeatureCatalogue.segment().features().get(i).name())
                    .isCloseTo(loud[i], within(1e-3 + 1e-3 * Math.abs(loud[i])));
        }
    }

    @Test
    void silenceHoldsNothing() {
        float[] silent = extractor(new double[3 * RATE]).segment(0, 3);
        assertThat(feature(silent, "burst.score8.rate")).isZero();
        assertThat(feature(silent, "ridgeTone.share")).isZero();
    }

    /** What is searched once is what the finders find by themselves. */
    @Test
    void theSharedSearchFindsWhatTheFindersFind() {
        double[] x = noise(6, 0.01, 8);
        crackle(x, 2, 6, 0.3);
        crackle(x, 3, 12, 0.3);
        for (int i = 4 * RATE; i < 4.5 * RATE; i++) {
            x[i] += 0.05 * Math.sin(2 * Math.PI * 400 * i / RATE);
        }
        ChestViews views = ChestViews.of(new Recording(x, RATE, "test"));
        assertThat(SoundSearch.in(views).sounds())
                .hasSizeGreaterThanOrEqualTo(3)
                .containsAll(lungwort.sound.CrackleFinder.find(views))
                .hasSize(lungwort.sound.CrackleFinder.find(views).size()
                        + lungwort.sound.ContinuousSoundFinder.find(views).size());
    }

    /** The mathematical crackle (Kiyokawa et al. 2001 [M]) with an initial deflection of 15 % of its two cycles. */
    private static void crackle(double[] x, double atSeconds, double twoCycleMs, double peak) {
        double power = Math.log(0.25) / Math.log(0.15);
        int n = (int) (twoCycleMs / 1000 * RATE);
        for (int i = 0; i < n; i++) {
            double t = (double) i / n;
            x[(int) (atSeconds * RATE) + i] += peak
                    / 1.6
                    * Math.sin(4 * Math.PI * Math.pow(t, power))
                    * (1 - Math.cos(2 * Math.PI * Math.sqrt(t)));
        }
    }
}
