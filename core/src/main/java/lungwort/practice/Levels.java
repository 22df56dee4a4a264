package lungwort.practice;

/** Levels in dB full scale. */
final class Levels {
    private Levels() {}

    static double amplitude(double db) {
        return Math.pow(10, db / 20);
    }

    static double rms(double[] x) {
        double sum = 0;
        for (double v : x) {
            sum += v * v;
        }
        return Math.sqrt(sum / Math.max(1, x.length));
    }

    /** Scales in place to a root mean square; silence stays silence. */
    static double[] toRms(double[] x, double rms) {
        return scale(x, rms / Math.max(rms(x), 1e-300));
    }

    /** Scales in place to a peak magnitude; silence stays silence. */
    static double[] toPeak(double[] x, double peak) {
        double most = 1e-300;
        for (double v : x) {
            most = Math.max(most, Math.abs(v));
        }
        return scale(x, peak / most);
    }

    private static double[] scale(double[] x, double factor) {
        for (int i = 0; i < x.length; i++) {
            x[i] *= factor;
        }
        return x;
    }
}
