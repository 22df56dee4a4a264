package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import lungwort.feature.FeatureCatalogue;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class FamiliarSpectrumTest {
    private static final double[] CHEST = {30, 22, 12, -3, -13, -16, -16, -16};
    private static final double SPREAD_DB = 3;

    private static TrainingItem item(float[] recording, @Nullable RecordingClass label, boolean altered) {
        return new TrainingItem(
                "p", new float[0][], List.of(), new float[1][0], new int[] {0}, recording, label, altered);
    }

    /** A spectrum that lies off a chest's by one number in each band. */
    private static float[] recording(double... offsets) {
        float[] x = new float[FeatureCatalogue.recording().size()];
        for (int band = 0; band < CHEST.length; band++) {
            x[FeatureCatalogue.recording().indexOf("recording.level." + band + ".shape")] =
                    (float) (CHEST[band] + offsets[band % offsets.length]);
        }
        return x;
    }

    private static List<TrainingItem> learnt(int count) {
        SplittableRandom random = new SplittableRandom(7);
        List<TrainingItem> items = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double[] offsets = IntStream.range(0, CHEST.length)
                    .mapToDouble(band -> SPREAD_DB * random.nextGaussian())
                    .toArray();
            items.add(item(recording(offsets), RecordingClass.NORMAL, false));
        }
        return items;
    }

    private static FamiliarSpectrum fit(List<TrainingItem> items) {
        return Objects.requireNonNull(FamiliarSpectrum.fit(items));
    }

    /** Of independent bands with a spread of 3 dB (1 dB more is granted), each dB counts 1 / sqrt(10): Mahalanobis' distance by hand. */
    @Test
    void distanceIsMahalanobis() {
        FamiliarSpectrum familiar = fit(learnt(20_000));
        double one = 10 / Math.sqrt(SPREAD_DB * SPREAD_DB + 1);
        assertThat(familiar.distance(recording(10, 0, 0, 0, 0, 0, 0, 0))).isCloseTo(one, within(0.05));
        assertThat(familiar.distance(recording(10))).isCloseTo(Math.sqrt(8) * one, within(0.15));
        assertThat(familiar.distance(recording(0))).isCloseTo(0, within(0.1));
    }

    /** Of those learnt from, 98 of 100 are familiar; what is coloured as no one of them was is not. */
    @Test
    void whatWasLearntFromIsFamiliar() {
        List<TrainingItem> items = learnt(1000);
        FamiliarSpectrum familiar = fit(items);
        assertThat(items.stream().filter(i -> familiar.holds(i.recording()))).hasSize(980);
        assertThat(familiar.holds(recording(0))).isTrue();
        assertThat(familiar.holds(recording(-12, 12))).isFalse();
    }

    /** Altered copies and recordings that nobody could judge widen nothing. */
    @Test
    void onlyWhatWasRecordedAndCouldBeJudgedCounts() {
        List<TrainingItem> items = learnt(100);
        FamiliarSpectrum plain = fit(items);
        items.add(item(recording(-40, 40), RecordingClass.NORMAL, true));
        items.add(item(recording(40, -40), RecordingClass.POOR_QUALITY, false));
        items.add(item(recording(40, -40), null, false));
        FamiliarSpectrum same = fit(items);
        assertThat(same.limit()).isEqualTo(plain.limit());
        assertThat(same.mean()).isEqualTo(plain.mean());
        items.add(item(recording(-40, 40), RecordingClass.NORMAL, false));
        assertThat(fit(items).mean()).isNotEqualTo(plain.mean());
    }

    @Test
    void fewerThanTwoRecordingsMakeNoneFamiliar() {
        assertThat(FamiliarSpectrum.fit(learnt(1))).isNull();
        assertThat(FamiliarSpectrum.fit(learnt(2))).isNotNull();
    }

    @Test
    void numbersThatAreNoneAreRefused() {
        assertThatThrownBy(() -> new FamiliarSpectrum(new double[8], new double[8][8], Double.NaN))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FamiliarSpectrum(new double[8], new double[8][8], Double.POSITIVE_INFINITY))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FamiliarSpectrum(new double[8], new double[7][8], 1))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
