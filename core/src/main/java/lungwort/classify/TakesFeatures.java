package lungwort.classify;

import java.util.Arrays;
import java.util.List;

/**
 * A recording's own probabilities beside those of the person's other recordings.
 *
 * <p>Features: log probabilities of its five classes; the logits of continuous, discontinuous, poor quality and not normal; mean, highest and lowest of these over the other
 * recordings; the logarithm of their number.
 */
final class TakesFeatures {
    private static final double LEAST = 1e-3;
    private static final int ASPECTS = 4;

    /** Length of the vectors. */
    static final int SIZE = RecordingClass.COUNT + ASPECTS * 4 + 1;

    private TakesFeatures() {}

    /** Logits of continuous, discontinuous, poor quality and not normal. */
    static double[] aspects(double[] p) {
        return new double[] {
            ContextFeatures.logit(RecordingClass.continuous(p)),
            ContextFeatures.logit(RecordingClass.discontinuous(p)),
            ContextFeatures.logit(RecordingClass.poorQuality(p)),
            ContextFeatures.logit(1 - p[0])
        };
    }

    /** @param recordings class probabilities of each recording of one person; {@code which} is the one described */
    static float[] of(List<double[]> recordings, int which) {
        double[][] aspect = recordings.stream().map(TakesFeatures::aspects).toArray(double[][]::new);
        float[] row = new float[SIZE];
        int at = 0;
        for (double v : recordings.get(which)) {
            row[at++] = (float) Math.log(v + LEAST);
        }
        for (int a = 0; a < ASPECTS; a++) {
            int index = a;
            row[at++] = (float) aspect[which][a];
            for (double v :
                    Others.of(Arrays.stream(aspect).mapToDouble(x -> x[index]).toArray(), which)) {
                row[at++] = (float) v;
            }
        }
        row[at] = (float) Math.log(recordings.size());
        return row;
    }
}
