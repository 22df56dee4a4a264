package lungwort.audio;

import java.util.Arrays;

/**
 * The mu-law companding of telephone lines (ITU-T G.711, 1988, tables 2a and 2b): 8 bits a sample, in 8 segments of 16 steps on either side of zero, each segment's steps twice as
 * wide as those of the one below. Full scale is the 14-bit virtual range of the tables, +-8192.
 */
public final class MuLaw {
    /** Sampling rate of G.711, in Hz. */
    public static final int RATE_HZ = 8000;

    private static final double FULL_SCALE = 8192;

    /** Shifts every segment's ends to powers of two. */
    private static final int BIAS = 33;

    /** Overload: the last decision value of table 2a. */
    private static final int MAX_MAGNITUDE = 8159;

    /** Where the first segment begins, with the bias. */
    private static final int FIRST = 32;

    private static final int STEPS = 16;
    private static final int SIGN = 0x80;

    private MuLaw() {}

    /**
     * The 8 bits that are sent for a sample, all of them inverted as on the line.
     *
     * @param sample full scale is 1; what is larger is sent as the largest value
     */
    public static int encode(double sample) {
        // Held one quantum under the overload value, so that the topmost step is the last.
        double magnitude = Math.min(MAX_MAGNITUDE - 1, Math.abs(sample) * FULL_SCALE) + BIAS;
        int segment = 0;
        while (magnitude >= 2 * FIRST << segment) {
            segment++;
        }
        int step = (int) (magnitude / (2 << segment)) - STEPS;
        return ~((sample < 0 ? SIGN : 0) | segment << 4 | step) & 0xFF;
    }

    /**
     * The sample that 8 bits stand for: the middle of their step.
     *
     * @param code in [0, 255]
     * @return in (-1, 1)
     */
    public static double decode(int code) {
        int bits = ~code & 0xFF;
        int segment = bits >> 4 & 7;
        int step = bits & 0xF;
        double magnitude = ((2 * step + BIAS) << segment) - BIAS;
        return ((bits & SIGN) == 0 ? magnitude : -magnitude) / FULL_SCALE;
    }

    /** A recording as it comes out of a telephone line: resampled to {@value #RATE_HZ} Hz, companded and expanded again. */
    public static Recording roundTrip(Recording recording) {
        Recording narrow = Resampler.toRate(recording, RATE_HZ);
        double[] samples =
                Arrays.stream(narrow.samples()).map(v -> decode(encode(v))).toArray();
        return narrow.with(samples, RATE_HZ);
    }
}
