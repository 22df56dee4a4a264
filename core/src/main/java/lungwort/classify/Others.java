package lungwort.classify;

/** Sums up all values but one. */
final class Others {
    private Others() {}

    /** Mean, highest and lowest of all values but the one at {@code self}; that one three times if there is no other. */
    static double[] of(double[] values, int self) {
        if (values.length == 1) {
            return new double[] {values[0], values[0], values[0]};
        }
        double sum = 0;
        double high = Double.NEGATIVE_INFINITY;
        double low = Double.POSITIVE_INFINITY;
        for (int j = 0; j < values.length; j++) {
            if (j != self) {
                sum += values[j];
                high = Math.max(high, values[j]);
                low = Math.min(low, values[j]);
            }
        }
        return new double[] {sum / (values.length - 1), high, low};
    }
}
