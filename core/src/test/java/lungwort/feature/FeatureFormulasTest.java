package lungwort.feature;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.golden.Golden;
import lungwort.signal.ChestViews;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Features computed again with SciPy from core/FORMULAS.md alone ({@code tests/golden/make_features.py}): whoever reads the document gets the numbers that Lungwort gives. */
class FeatureFormulasTest {
    private static final int RATE_HZ = 8000;
    private static final int SECONDS = 4;

    /** Features are single precision; ridges add up a hundred of them. */
    private static final double RELATIVE = 2e-5;

    static List<Golden> spans() {
        return Golden.cases("features").toList();
    }

    @ParameterizedTest
    @MethodSource("spans")
    void theFormulasGiveTheFeatures(Golden span) {
        FeatureExtractor extractor = FeatureExtractor.of(ChestViews.of(sound()));
        float[] ours = extractor.segment(span.number("start"), span.number("end"));
        double[] theirs = span.array("values");
        List<String> differ = new ArrayList<>();
        for (int i = 0; i < theirs.length; i++) {
            String name = span.texts("names").get(i);
            double value = ours[FeatureCatalogue.segment().indexOf(name)];
            if (!(Math.abs(value - theirs[i]) <= RELATIVE * Math.max(1, Math.abs(theirs[i])))) {
                differ.add("%s: %s, by the formula %s".formatted(name, value, theirs[i]));
            }
        }
        assertThat(differ).isEmpty();
        assertThat(theirs).hasSizeGreaterThan(30);
    }

    /** As {@code sound} of the script makes it. */
    private static Recording sound() {
        double[] x = new double[RATE_HZ * SECONDS];
        long state = 1;
        for (int i = 0; i < x.length; i++) {
            state = (state * 1103515245L + 12345) % (1L << 31);
            double t = (double) i / RATE_HZ;
            x[i] = 0.02 * (0.3 + Math.abs(Math.sin(Math.PI * t / 2))) * ((double) state / (1L << 30) - 1);
            if (t >= 1.0 && t < 1.6) {
                x[i] += 0.02 * Math.sin(2 * Math.PI * 400 * t);
            }
            for (double click : new double[] {0.5, 1.25, 2.0}) {
                if (t >= click) {
                    x[i] += 0.2 * Math.exp(-(t - click) / 0.002) * Math.sin(2 * Math.PI * 600 * (t - click));
                }
            }
        }
        return new Recording(x, RATE_HZ, "sound");
    }
}
