package lungwort.quality;

/** Counts stretches in which the signal stood still: runs of one value of at least {@value #MIN_SECONDS} s. */
final class Dropouts {
    /** Shortest run that counts, in seconds. */
    static final double MIN_SECONDS = 0.02;

    private final long minRun;
    private double last = Double.NaN;
    private long run;
    private long samples;
    private int stretches;

    Dropouts(int sampleRateHz) {
        this.minRun = Math.max(2, Math.round(MIN_SECONDS * sampleRateHz));
    }

    void push(double x) {
        if (x == last) {
            run++;
            if (run == minRun) {
                stretches++;
                samples += minRun;
            } else if (run > minRun) {
                samples++;
            }
        } else {
            run = 1;
            last = x;
        }
    }

    /** Samples in all stretches. */
    long samples() {
        return samples;
    }

    /** Number of stretches. */
    int stretches() {
        return stretches;
    }
}
