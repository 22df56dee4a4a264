package lungwort.breath;

/**
 * Level of the breath's noise over time in a few bands: what the breath tracker works on.
 *
 * <p>The level of a band is the median, not the mean, over its frequencies, so that a wheeze, which fills few of them, hardly moves it.
 *
 * @param levelsDb shape {@code [frames][bands]}: median power density of the band, in dB re full scale squared per Hz
 * @param hopSeconds time from one frame to the next
 * @param firstSeconds middle of the first frame
 * @param durationSeconds length of the recording so far
 */
public record BandLevels(double[][] levelsDb, double hopSeconds, double firstSeconds, double durationSeconds) {
    /** Edges of the bands, in Hz: from above most of the heart to where stethoscopes stop. */
    static final double[] EDGES_HZ = {100, 200, 300, 450, 650, 900, 1200, 1600};

    /** Number of bands. */
    public static final int BANDS = EDGES_HZ.length - 1;

    /** Number of frames. */
    public int frames() {
        return levelsDb.length;
    }

    /** Middle of a frame, in seconds. */
    public double secondsOf(int frame) {
        return firstSeconds + frame * hopSeconds;
    }
}
