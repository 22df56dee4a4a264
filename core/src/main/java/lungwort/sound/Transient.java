package lungwort.sound;

import lungwort.signal.ChestViews;

/**
 * A short event that stands out from the sound around it; perhaps a crackle.
 *
 * @param score log-likelihood ratio ({@link TransientMap})
 * @param highShare share of its energy above 1.6 kHz, in [0, 1]
 * @param shape its widths, in samples at {@link ChestViews#CRACKLE_RATE_HZ}
 */
record Transient(double score, double highShare, CrackleShapeMeasure shape) {
    /** Touches and friction of the chest piece are wider in band than any crackle: a tenth of the energy above 1.6 kHz (common practice [C]). */
    private static final double CLICK_HIGH_SHARE = 0.10;

    /**
     * Least correlation with the mathematical crackle. Measured at events annotated as fine crackles in SPRSound's training set: median 0.90, tenth percentile 0.71; on synthesised friction
     * 0.67 in the median.
     */
    private static final double LEAST_FIT = 0.72;

    /** The shortest largest deflection, in ms: two cycles of 3.3 ms (IDW 0.5 ms) have 0.78. */
    private static final double SHORTEST_MS = 0.45;

    /** A click that went through a narrow device is as wide as the device's band makes it: up to 0.72 ms at 4 kHz. */
    private static final double SHORTEST_NARROW_MS = 0.75;

    private static final int NARROW_RATE_HZ = 7000;

    /** What still rings 4 to 29 ms after the second cycle at this share of the peak is a bump, a tone's start or a voice. */
    private static final double RINGS_ON = 0.5;

    /** Its peak over the noise just before, as a ratio (5 dB): the end of a loud tone does not stand out over what it ends. */
    private static final double LEAST_PEAK = 1.8;

    boolean isCrackle(int sourceRateHz, SoundLimits limits) {
        double shortest = sourceRateHz < NARROW_RATE_HZ ? SHORTEST_NARROW_MS : SHORTEST_MS;
        return largestMs() >= shortest
                && largestMs() <= limits.longestLargestMs()
                && ms(shape.twoCycleSamples()) <= limits.crackleBelow2cdMs()
                && shaped(shape.fit(), highShare, ringing())
                && shape.peak() >= LEAST_PEAK * shape.noise();
    }

    /** Whether it fits a crackle, is not as broad in band as a click, and does not ring on. */
    static boolean shaped(double fit, double highShare, double ringing) {
        return fit >= LEAST_FIT && highShare < CLICK_HIGH_SHARE && ringing < RINGS_ON;
    }

    Burst described(int sourceRateHz) {
        return new Burst(
                shape.startSample() / ChestViews.CRACKLE_RATE_HZ,
                score,
                highShare,
                ms(shape.initialSamples()),
                ms(shape.twoCycleSamples()),
                largestMs(),
                prominenceDb(),
                shape.fit(),
                ringing(),
                score >= CrackleFinder.LEAST_SCORE && isCrackle(sourceRateHz, SoundLimits.CORSA));
    }

    Crackle named(SoundLimits limits) {
        double start = shape.startSample() / ChestViews.CRACKLE_RATE_HZ;
        return new Crackle(
                limits.crackleKind(largestMs()),
                start,
                start + shape.twoCycleSamples() / ChestViews.CRACKLE_RATE_HZ,
                ms(shape.initialSamples()),
                ms(shape.twoCycleSamples()),
                largestMs(),
                prominenceDb());
    }

    private double prominenceDb() {
        return shape.peak() > 0 ? 20 * Math.log10(shape.peak() / Math.max(shape.noise(), FLOOR * shape.peak())) : 0;
    }

    private double ringing() {
        return shape.peak() > 0 ? shape.after() / shape.peak() : 0;
    }

    /** In digital silence nothing stands beside the peak: 100 dB is the most that is said. */
    private static final double FLOOR = 1e-5;

    private double largestMs() {
        return ms(shape.largestSamples());
    }

    private static double ms(double samples) {
        return samples * 1000 / ChestViews.CRACKLE_RATE_HZ;
    }
}
