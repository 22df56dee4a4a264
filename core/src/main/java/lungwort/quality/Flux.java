package lungwort.quality;

/** How much the spectrum from {@value #LOW_HZ} to {@value #HIGH_HZ} Hz changes from one fifth of a second to the next: large where breaths come and go, small in steady noise. Mutable. */
final class Flux {
    private static final double LOW_HZ = 94;
    private static final double HIGH_HZ = 1250;
    private static final int STEP_FRAMES = 8;

    /** Share of the new frame in the running mean of each frequency's level. */
    private static final double NEW_SHARE = 0.2;

    private final int firstBin;
    private final double[] running;
    private final double[] before;
    private int frames;
    private double sum;
    private int steps;

    Flux(double binHz, int bins) {
        firstBin = Math.min(bins, (int) Math.ceil(LOW_HZ / binHz));
        int end = Math.min(bins, (int) Math.ceil(HIGH_HZ / binHz));
        running = new double[end - firstBin];
        before = new double[end - firstBin];
    }

    void add(double[] power) {
        for (int i = 0; i < running.length; i++) {
            double level = FrameTrack.decibels(power[firstBin + i]);
            running[i] += (frames == 0 ? 1 : NEW_SHARE) * (level - running[i]);
        }
        if (frames++ % STEP_FRAMES == 0) {
            if (frames > 1) {
                sum += change();
                steps++;
            }
            System.arraycopy(running, 0, before, 0, running.length);
        }
    }

    private double change() {
        double change = 0;
        for (int i = 0; i < running.length; i++) {
            change += Math.abs(running[i] - before[i]);
        }
        return running.length == 0 ? 0 : change / running.length;
    }

    /** Mean change per step, in dB. */
    double mean() {
        return steps == 0 ? 0 : sum / steps;
    }
}
