package lungwort.signal;

/**
 * Butterworth filters (S. Butterworth 1930) as second-order sections, by the bilinear transform with prewarped edges; the edges are the -3 dB points.
 *
 * <p>Every section is scaled to a gain of 1 at the middle of the pass band, so no section overflows or sinks into rounding.
 * Agrees with SciPy's {@code butter(order, edges, fs=rateHz, output="sos")} but for the pairing of zeros and the order of sections.
 */
public final class Butterworth {
    /** Highest order accepted; more gives no better filter for sound, only longer ringing. */
    public static final int MAX_ORDER = 16;

    private Butterworth() {}

    /**
     * A filter that passes what lies below a frequency.
     *
     * @param order number of poles, 1 to {@value #MAX_ORDER}
     * @param cutoffHz -3 dB point, in (0, rateHz / 2)
     * @param rateHz sample rate in Hz
     * @throws IllegalArgumentException if order or cutoff is out of range
     */
    public static SosFilter lowPass(int order, double cutoffHz, int rateHz) {
        check(order, cutoffHz, cutoffHz, rateHz);
        return onePass(order, cutoffHz, rateHz, -1);
    }

    /** As {@link #lowPass}, passing what lies above the cutoff. */
    public static SosFilter highPass(int order, double cutoffHz, int rateHz) {
        check(order, cutoffHz, cutoffHz, rateHz);
        return onePass(order, cutoffHz, rateHz, 1);
    }

    /**
     * A filter that passes what lies between two frequencies.
     *
     * @param order poles at each edge, 1 to {@value #MAX_ORDER}; the filter has twice as many
     * @param lowHz lower -3 dB point, in (0, highHz)
     * @param highHz upper -3 dB point, in (lowHz, rateHz / 2)
     * @param rateHz sample rate in Hz
     * @throws IllegalArgumentException if order or edges are out of range
     */
    public static SosFilter bandPass(int order, double lowHz, double highHz, int rateHz) {
        check(order, lowHz, highHz, rateHz);
        if (!(lowHz < highHz)) {
            throw new IllegalArgumentException("band-pass from %s to %s Hz is empty".formatted(lowHz, highHz));
        }
        double low = Math.tan(Math.PI * lowHz / rateHz);
        double high = Math.tan(Math.PI * highHz / rateHz);
        double width = high - low;
        double centreSquared = low * high;
        double centre = 2 * Math.atan(Math.sqrt(centreSquared));
        double[][] sections = new double[order][];
        int at = 0;
        // Each prototype pole p gives the two roots of s^2 - p width s + centre^2. For a pole pair p, conj(p) the four
        // roots
        // are two conjugate pairs, one for each root of p.
        for (int k = 0; k < order / 2; k++) {
            double angle = poleAngle(order, k);
            double[] roots = quadraticRoots(width * Math.cos(angle), width * Math.sin(angle), centreSquared);
            sections[at++] = bandSection(roots[0], roots[1], centre);
            sections[at++] = bandSection(roots[2], roots[3], centre);
        }
        if (order % 2 == 1) {
            // The real pole p = -1: s^2 + width s + centre^2, whether its roots are a conjugate pair or both real.
            double a0 = 1 + width + centreSquared;
            double[] denominator = {1, 2 * (centreSquared - 1) / a0, (1 - width + centreSquared) / a0};
            sections[at] = scaled(new double[] {1, 0, -1}, denominator, centre);
        }
        return new SosFilter(sections, rateHz);
    }

    private static SosFilter onePass(int order, double cutoffHz, int rateHz, int zeroSide) {
        double warped = Math.tan(Math.PI * cutoffHz / rateHz);
        double reference = zeroSide < 0 ? 0 : Math.PI;
        double[][] sections = new double[(order + 1) / 2][];
        int at = 0;
        if (order % 2 == 1) {
            double pole = (1 - warped) / (1 + warped);
            sections[at++] = scaled(new double[] {1, -zeroSide, 0}, new double[] {1, -pole, 0}, reference);
        }
        for (int k = order / 2 - 1; k >= 0; k--) {
            // High-pass poles are warped / p, which for poles on the unit circle is warped * conj(p): the same pair.
            double real = warped * Math.cos(poleAngle(order, k));
            double a0 = 1 - 2 * real + warped * warped;
            double[] denominator = {1, 2 * (warped * warped - 1) / a0, (1 + 2 * real + warped * warped) / a0};
            sections[at++] = scaled(new double[] {1, -2 * zeroSide, 1}, denominator, reference);
        }
        return new SosFilter(sections, rateHz);
    }

    /** Angle of the k-th prototype pole of the upper left half plane, in radians. */
    private static double poleAngle(int order, int k) {
        return Math.PI / 2 + Math.PI * (2 * k + 1) / (2.0 * order);
    }

    /** Both roots {re, im, re, im} of s^2 - (re + i im) s + product = 0. */
    private static double[] quadraticRoots(double re, double im, double product) {
        double discriminantRe = re * re - im * im - 4 * product;
        double discriminantIm = 2 * re * im;
        double size = Math.hypot(discriminantRe, discriminantIm);
        double rootRe = Math.sqrt(Math.max(0, (size + discriminantRe) / 2));
        double rootIm = Math.copySign(Math.sqrt(Math.max(0, (size - discriminantRe) / 2)), discriminantIm);
        return new double[] {(re + rootRe) / 2, (im + rootIm) / 2, (re - rootRe) / 2, (im - rootIm) / 2};
    }

    private static double[] bandSection(double re, double im, double reference) {
        double squared = re * re + im * im;
        double a0 = 1 - 2 * re + squared;
        double[] denominator = {1, 2 * (squared - 1) / a0, (1 + 2 * re + squared) / a0};
        return scaled(new double[] {1, 0, -1}, denominator, reference);
    }

    private static double[] scaled(double[] b, double[] a, double referenceRadians) {
        double gain = SosFilter.magnitude(a, referenceRadians) / SosFilter.magnitude(b, referenceRadians);
        return new double[] {b[0] * gain, b[1] * gain, b[2] * gain, 1, a[1], a[2]};
    }

    private static void check(int order, double lowHz, double highHz, int rateHz) {
        if (order < 1 || order > MAX_ORDER) {
            throw new IllegalArgumentException("filter order %d is outside 1 to %d".formatted(order, MAX_ORDER));
        }
        if (!(lowHz > 0) || !(highHz < rateHz / 2.0)) {
            throw new IllegalArgumentException(
                    "filter edges %s to %s Hz are outside 0 to %s Hz".formatted(lowHz, highHz, rateHz / 2.0));
        }
    }
}
