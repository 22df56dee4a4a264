package lungwort.golden;

import static org.assertj.core.api.Assertions.assertThat;

/** Compares long arrays without printing them. */
public final class Differences {
    private Differences() {}

    /** Largest absolute difference of two arrays that must be of one length. */
    public static double worst(double[] a, double[] b) {
        assertThat(a.length).as("length").isEqualTo(b.length);
        double worst = 0;
        for (int i = 0; i < a.length; i++) {
            double difference = Math.abs(a[i] - b[i]);
            worst = Double.isNaN(difference) ? Double.POSITIVE_INFINITY : Math.max(worst, difference);
        }
        return worst;
    }
}
