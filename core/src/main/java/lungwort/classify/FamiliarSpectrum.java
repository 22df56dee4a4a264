package lungwort.classify;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.feature.FeatureCatalogue;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.stat.correlation.Covariance;
import org.jspecify.annotations.Nullable;

/**
 * Whether a recording sounds, on the whole, like those that a model learnt from. What a model does not find says something only where it knows what finding is like: through a device of another colour it
 * may pass over everything.
 *
 * <p>Compared is the shape of the spectrum over the whole recording (features {@code recording.level.*.shape}: by how many dB each of eight bands lies over their mean), by Mahalanobis' distance (P. C.
 * Mahalanobis, "On the generalised distance in statistics", 1936) from the recordings learnt from. It tells nothing of what sounds in the recording, and no probability rests on it.
 *
 * @param mean of the shapes, in dB, shape {@code [bands]}
 * @param precision inverse of their covariance with 1 dB² added to each variance, in 1/dB², shape {@code [bands][bands]}
 * @param limit distance up to which a recording is familiar: {@value #FAMILIAR_SHARE} of the recordings learnt from lie within
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record FamiliarSpectrum(double[] mean, double[][] precision, double limit) {
    /** Number of bands. */
    static final int BANDS = 8;

    private static final double FAMILIAR_SHARE = 0.98;

    /** Shapes sum to nothing, and few recordings say little: a deviation of 1 dB is always granted. */
    private static final double GRANTED_DB_SQUARED = 1;

    private static final int[] COLUMNS = IntStream.range(0, BANDS)
            .map(band -> FeatureCatalogue.recording().indexOf("recording.level." + band + ".shape"))
            .toArray();

    FamiliarSpectrum {
        boolean whole = mean.length == BANDS
                && precision.length == BANDS
                && Arrays.stream(precision).allMatch(row -> row.length == BANDS && finite(row))
                && finite(mean);
        if (!whole || !(limit >= 0 && limit < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("a familiar spectrum that is none");
        }
    }

    private static boolean finite(double[] values) {
        return Arrays.stream(values).allMatch(Double::isFinite);
    }

    /**
     * @param items of which those count that are as recorded, and that listeners called something other than too poor to judge
     * @return null if fewer than two count: then no recording is familiar
     */
    static @Nullable FamiliarSpectrum fit(List<TrainingItem> items) {
        double[][] shapes = items.stream()
                .filter(item -> !item.altered() && item.label() != null && item.label() != RecordingClass.POOR_QUALITY)
                .map(item -> shape(item.recording()))
                .toArray(double[][]::new);
        if (shapes.length < 2) {
            return null;
        }
        double[] mean = new double[BANDS];
        for (double[] shape : shapes) {
            for (int band = 0; band < BANDS; band++) {
                mean[band] += shape[band] / shapes.length;
            }
        }
        RealMatrix covariance = new Covariance(shapes).getCovarianceMatrix();
        RealMatrix granted = MatrixUtils.createRealIdentityMatrix(BANDS).scalarMultiply(GRANTED_DB_SQUARED);
        double[][] precision = MatrixUtils.inverse(covariance.add(granted)).getData();
        double[] distances = Arrays.stream(shapes)
                .mapToDouble(shape -> distance(shape, mean, precision))
                .sorted()
                .toArray();
        int last = (int) Math.ceil(FAMILIAR_SHARE * distances.length) - 1;
        return new FamiliarSpectrum(mean, precision, distances[last]);
    }

    /** @param recording features of a recording, in the order of the recording catalogue */
    boolean holds(float[] recording) {
        return distance(recording) <= limit;
    }

    /** Mahalanobis' distance of a recording: without unit, about the root of the number of bands where it is familiar. */
    double distance(float[] recording) {
        return distance(shape(recording), mean, precision);
    }

    private static double[] shape(float[] recording) {
        return Arrays.stream(COLUMNS).mapToDouble(column -> recording[column]).toArray();
    }

    private static double distance(double[] shape, double[] mean, double[][] precision) {
        double sum = 0;
        for (int i = 0; i < BANDS; i++) {
            for (int j = 0; j < BANDS; j++) {
                sum += (shape[i] - mean[i]) * precision[i][j] * (shape[j] - mean[j]);
            }
        }
        return Math.sqrt(Math.max(0, sum));
    }
}
