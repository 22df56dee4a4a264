package lungwort.feature;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import lungwort.audio.Recording;
import lungwort.signal.ChestViews;

/** White noise to put sounds into, and the features of what came of it by name. */
final class Probe {
    static final int RATE = 8000;

    private Probe() {}

    static double[] noise(double seconds, double level, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] x = new double[(int) (seconds * RATE)];
        for (int i = 0; i < x.length; i++) {
            x[i] = level * random.nextGaussian();
        }
        return x;
    }

    static FeatureExtractor extractor(double[] x) {
        return FeatureExtractor.of(ChestViews.of(new Recording(x, RATE, "test")));
    }

    /** The value of a segment's feature, which must be in the catalogue. */
    static double feature(float[] values, String name) {
        int at = FeatureCatalogue.segment().indexOf(name);
        assertThat(at).as(name).isNotNegative();
        return values[at];
    }
}
