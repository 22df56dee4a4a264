package lungwort.audio;

/**
 * Counts overdriven samples: runs of at least {@value #MIN_RUN} equal samples at the largest value or at the smallest.
 * The level at which they are cut off may lie below full scale, where a gain was lowered after the overdrive. Mutable, for one thread.
 */
public final class FlatTops {
    /** Shortest run that counts; two equal samples at a peak are no rarity in 16-bit sound. */
    static final int MIN_RUN = 3;

    private final Side high = new Side();
    private final Side low = new Side();

    /** Takes the next sample. */
    public void push(double x) {
        high.push(x);
        low.push(-x);
    }

    /** Largest magnitude so far; 0 before the first sample. */
    public double peak() {
        return Math.max(0, Math.max(high.extreme, low.extreme));
    }

    /** Samples so far in flat runs at either extreme. */
    public long clipped() {
        return high.counted() + low.counted();
    }

    private static final class Side {
        private double extreme = Double.NEGATIVE_INFINITY;
        private long run;
        private long closed;

        void push(double x) {
            if (x > extreme) {
                extreme = x;
                run = 1;
                closed = 0;
            } else if (x == extreme) {
                run++;
            } else {
                closed = counted();
                run = 0;
            }
        }

        long counted() {
            return extreme > 0 && run >= MIN_RUN ? closed + run : closed;
        }
    }
}
