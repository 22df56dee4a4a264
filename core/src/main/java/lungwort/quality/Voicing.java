package lungwort.quality;

/**
 * Tells voice from other sound by its row of harmonics: the autocorrelation of a frame, from its power spectrum between {@value #LOW_HZ} and {@value #HIGH_HZ} Hz, gives a pitch; then the
 * peaks at its multiples are counted.
 */
final class Voicing {
    /** Range of spectrum the pitch is told from, in Hz. */
    private static final double LOW_HZ = 120;

    private static final double HIGH_HZ = 1200;

    /** Range of pitch, in Hz: a deep voice to a child's cry. */
    static final double MIN_PITCH_HZ = 80;

    static final double MAX_PITCH_HZ = 500;

    private static final double LAG_STEP_SECONDS = 0.0002;

    /** Harmonics are counted up to this frequency, in Hz, and this many. */
    private static final double TOP_HZ = 2000;

    private static final int MAX_HARMONICS = 10;

    /** A harmonic stands this much over the gaps beside it, in power. */
    private static final double PEAK_OVER_GAP = 6;

    /** A shorter lag is preferred if its height is at least this share of the highest. */
    private static final double PREFER_SHORT = 0.9;

    private final double binHz;
    private final int firstBin;
    private final int endBin;
    private final double[][] cosines;

    /**
     * Harmonic structure of a frame.
     *
     * @param harmonicity height of the autocorrelation at the pitch's lag, in [-1, 1]
     * @param pitchHz the pitch
     * @param harmonics multiples of the pitch, itself included, that stand out
     */
    record Voice(double harmonicity, double pitchHz, int harmonics) {}

    Voicing(double binHz, int bins) {
        this.binHz = binHz;
        this.firstBin = Math.min(bins, (int) Math.ceil(LOW_HZ / binHz));
        this.endBin = Math.min(bins, (int) Math.ceil(HIGH_HZ / binHz));
        int lags = (int) ((1 / MIN_PITCH_HZ - 1 / MAX_PITCH_HZ) / LAG_STEP_SECONDS) + 1;
        cosines = new double[lags][endBin - firstBin];
        for (int l = 0; l < lags; l++) {
            for (int k = firstBin; k < endBin; k++) {
                cosines[l][k - firstBin] = Math.cos(2 * Math.PI * k * binHz * lagSeconds(l));
            }
        }
    }

    private static double lagSeconds(int lag) {
        return 1 / MAX_PITCH_HZ + lag * LAG_STEP_SECONDS;
    }

    /** @param power power density per bin */
    Voice of(double[] power) {
        double total = 0;
        for (int k = firstBin; k < endBin; k++) {
            total += power[k];
        }
        if (!(total > 0)) {
            return new Voice(0, MIN_PITCH_HZ, 0);
        }
        double[] r = new double[cosines.length];
        double top = -1;
        for (int l = 0; l < r.length; l++) {
            double sum = 0;
            for (int k = firstBin; k < endBin; k++) {
                sum += power[k] * cosines[l][k - firstBin];
            }
            r[l] = sum / total;
            top = Math.max(top, r[l]);
        }
        int lag = shortest(r, top);
        double pitch = 1 / lagSeconds(lag);
        return new Voice(r[lag], pitch, harmonics(power, pitch));
    }

    private static int shortest(double[] r, double top) {
        int best = 0;
        for (int l = 0; l < r.length; l++) {
            boolean peak = (l == 0 || r[l] >= r[l - 1]) && (l == r.length - 1 || r[l] >= r[l + 1]);
            if (peak && r[l] >= PREFER_SHORT * top) {
                return l;
            }
            best = r[l] > r[best] ? l : best;
        }
        return best;
    }

    private int harmonics(double[] power, double pitchHz) {
        int found = 0;
        for (int h = 1; h <= MAX_HARMONICS && (h + 0.5) * pitchHz < Math.min(TOP_HZ, (power.length - 2) * binHz); h++) {
            double peak = highest(power, (h - 0.15) * pitchHz, (h + 0.15) * pitchHz);
            double below = mean(power, (h - 0.62) * pitchHz, (h - 0.38) * pitchHz);
            double above = mean(power, (h + 0.38) * pitchHz, (h + 0.62) * pitchHz);
            found += peak > PEAK_OVER_GAP * Math.max(below, above) ? 1 : 0;
        }
        return found;
    }

    private double highest(double[] power, double fromHz, double toHz) {
        double top = 0;
        for (int k = (int) Math.round(fromHz / binHz); k <= Math.round(toHz / binHz); k++) {
            top = Math.max(top, power[Math.max(0, k)]);
        }
        return top;
    }

    private double mean(double[] power, double fromHz, double toHz) {
        double sum = 0;
        int n = 0;
        for (int k = (int) Math.round(fromHz / binHz); k <= Math.round(toHz / binHz); k++) {
            sum += power[Math.max(0, Math.min(power.length - 1, k))];
            n++;
        }
        return sum / n;
    }
}
