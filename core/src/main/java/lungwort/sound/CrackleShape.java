package lungwort.sound;

/**
 * The mathematical crackle: a sine of two cycles that slows down, under a smooth hump.
 *
 * <p>{@code y(t) = 0.5 (1 + cos(2 pi (sqrt(t) - 0.5))) sin(4 pi t^a)} for t = time / 2CD in [0, 1], with {@code a = log 0.25 / log(IDW / 2CD)}, so that the first return to the
 * baseline comes exactly at the initial deflection width and the fourth exactly at the two-cycle duration. Kiyokawa, Greenberg, Shirota, Pasterkamp: Auditory detection of simulated
 * crackles in breath sounds, Chest 2001 (from memory [M]; that the zero crossings fall where they must is checked by the tests).
 */
public final class CrackleShape {
    /** The usual share of the initial deflection in the two cycles: 0.7 of 5 ms and 1.5 of 10 ms (ATS 1977 [M]). */
    static final double USUAL_INITIAL_SHARE = 0.15;

    /** With that share the largest deflection takes this share of the two cycles: {@code 0.5^(1/a) - 0.25^(1/a)}. */
    static final double USUAL_LARGEST_SHARE = 0.2372;

    private static final int GRID = 4000;

    private final double exponent;
    private final double twoCycleMs;
    private final double peak;
    private final double largestWidthMs;

    /**
     * @param initialDeflectionWidthMs IDW, in ms, above 0 and below half of the two-cycle duration
     * @param twoCycleDurationMs 2CD, in ms
     * @throws IllegalArgumentException if they are out of range
     */
    public CrackleShape(double initialDeflectionWidthMs, double twoCycleDurationMs) {
        double ratio = initialDeflectionWidthMs / twoCycleDurationMs;
        if (!(ratio > 0 && ratio < 0.5)) {
            throw new IllegalArgumentException(
                    "an initial deflection of %s ms does not fit into two cycles of %s ms; it takes less than half"
                            .formatted(initialDeflectionWidthMs, twoCycleDurationMs));
        }
        this.exponent = Math.log(0.25) / Math.log(ratio);
        this.twoCycleMs = twoCycleDurationMs;
        double[] peaks = deflectionPeaks();
        int largest = 0;
        for (int k = 1; k < peaks.length; k++) {
            largest = peaks[k] > peaks[largest] ? k : largest;
        }
        this.peak = peaks[largest];
        this.largestWidthMs = (crossing(largest + 1) - crossing(largest)) * twoCycleMs;
    }

    /** The shape with the usual proportions whose largest deflection has that width, in ms. */
    static CrackleShape ofLargestDeflection(double widthMs) {
        double twoCycleMs = widthMs / USUAL_LARGEST_SHARE;
        return new CrackleShape(USUAL_INITIAL_SHARE * twoCycleMs, twoCycleMs);
    }

    /** Two-cycle duration, in ms. */
    double twoCycleMs() {
        return twoCycleMs;
    }

    /** Value at a time in ms after the start, scaled to a peak magnitude of 1; 0 outside the two cycles. */
    public double at(double ms) {
        double t = ms / twoCycleMs;
        return t <= 0 || t >= 1 ? 0 : raw(t) / peak;
    }

    /** Width of the deflection with the largest peak, between its zero crossings, in ms. */
    public double largestDeflectionWidthMs() {
        return largestWidthMs;
    }

    private double raw(double t) {
        return 0.5 * (1 + Math.cos(2 * Math.PI * (Math.sqrt(t) - 0.5))) * Math.sin(4 * Math.PI * Math.pow(t, exponent));
    }

    /** The k-th zero crossing as a share of 2CD: 0 is the start, 4 the end. */
    private double crossing(int k) {
        return Math.pow(k / 4.0, 1 / exponent);
    }

    private double[] deflectionPeaks() {
        double[] peaks = new double[4];
        for (int i = 1; i < GRID; i++) {
            double t = (double) i / GRID;
            int deflection = Math.min(3, (int) (4 * Math.pow(t, exponent)));
            peaks[deflection] = Math.max(peaks[deflection], Math.abs(raw(t)));
        }
        return peaks;
    }
}
