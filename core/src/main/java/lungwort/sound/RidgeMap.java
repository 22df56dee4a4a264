package lungwort.sound;

import java.util.Arrays;
import lungwort.signal.Spectrogram;
import lungwort.signal.Statistics;

/**
 * How far each bin of a spectrogram stands out, in dB: over the median of its neighbours in frequency, and over what the recording itself holds steadily in that bin.
 *
 * <p>Both are ratios within one recording, so the device's gain and (slow) colour cancel. A steady line (hum, a fan, a charger) stands in the recording's lower quartile over time as a
 * narrow peak; only what rises above that line counts.
 */
final class RidgeMap {
    /** Neighbours on each side: 180 Hz. A tone's main lobe takes 31 of the 360 Hz under a 128 ms Hann window, 63 under one of 64 ms; a row of overtones 100 Hz apart still leaves half free. */
    private static final double NEIGHBOUR_HZ = 180;

    /** Bins below take fewer neighbours, since the high-pass bends the spectrum there. */
    private static final double FLOOR_HZ = 50;

    private static final double STEADY_PERCENT = 25;
    private static final double STEADY_LINE_DB = 4;

    private static final double QUIET_PERCENT = 20;

    /** From the lower fifth to the median of a bin that holds Gaussian noise, whose power is exponentially distributed: 10 lg(ln 2 / ln 1.25). */
    private static final double QUIET_TO_MEDIAN_DB = 10 * Math.log10(Math.log(2) / Math.log(1.25));

    /** To either side of a tone: its main lobe takes 31 Hz under a 128 ms Hann window, 63 under one of 64 ms. */
    private static final double LINE_HZ = 40;

    /** How far a bend may fall off over so many Hz, in dB. */
    private static final double BEND_DB = 3;

    /** What lies 110 dB under the loudest bin counts as silence. */
    private static final double SILENCE = 1e-11;

    private final double[][] excessDb;
    private final double[][] levelDb;
    private final int firstBin;
    private final int lastBin;

    private RidgeMap(double[][] excessDb, double[][] levelDb, int firstBin, int lastBin) {
        this.excessDb = excessDb;
        this.levelDb = levelDb;
        this.firstBin = firstBin;
        this.lastBin = lastBin;
    }

    static RidgeMap of(Spectrogram view, double lowHz, double highHz) {
        int first = view.binOf(lowHz);
        int last = view.binOf(highHz);
        double[][] level = levels(view);
        double[][] excess = new double[view.frames()][];
        double[] steady = steadyLines(level, view, first, last);
        for (int f = 0; f < excess.length; f++) {
            double[] smooth = neighbours(level[f], view, first, last);
            excess[f] = new double[view.bins()];
            for (int k = first; k <= last; k++) {
                excess[f][k] = level[f][k] - Math.max(smooth[k], steady[k]);
            }
        }
        subtractUsual(excess, view, first, last);
        return new RidgeMap(excess, level, first, last);
    }

    /**
     * Bends of the recording's own spectrum stand out all the time: what a bin shows in half of the frames is no ridge. But a wheeze of steady pitch that fills more than half of each breath shows in
     * half of the frames too. It is as narrow as a line; there the lower fifth of the frames tells what is usual, which such a wheeze leaves free.
     */
    private static void subtractUsual(double[][] excess, Spectrogram view, int first, int last) {
        if (excess.length == 0) {
            return;
        }
        double[] median = new double[last + 1];
        double[] ofNoise = new double[last + 1];
        double[] column = new double[excess.length];
        for (int k = first; k <= last; k++) {
            for (int f = 0; f < column.length; f++) {
                column[f] = excess[f][k];
            }
            median[k] = Statistics.median(column);
            ofNoise[k] = Statistics.percentile(column, QUIET_PERCENT) + QUIET_TO_MEDIAN_DB;
        }
        int beside = (int) Math.round(LINE_HZ / view.binHz());
        for (int k = first; k <= last; k++) {
            double bend = BEND_DB + Math.max(median[Math.max(first, k - beside)], median[Math.min(last, k + beside)]);
            double usual = Math.max(0, Math.min(median[k], Math.max(ofNoise[k], bend)));
            for (double[] row : excess) {
                row[k] -= usual;
            }
        }
    }

    private static double[][] levels(Spectrogram view) {
        double most = 0;
        for (int f = 0; f < view.frames(); f++) {
            for (double p : view.row(f)) {
                most = Math.max(most, p);
            }
        }
        double floor = most > 0 ? most * SILENCE : 1;
        double[][] level = new double[view.frames()][view.bins()];
        for (int f = 0; f < level.length; f++) {
            double[] row = view.row(f);
            for (int k = 0; k < row.length; k++) {
                level[f][k] = 10 * Math.log10(row[k] + floor);
            }
        }
        return level;
    }

    /** Level of the steady lines, in dB; negative infinity in bins that hold none. */
    private static double[] steadyLines(double[][] level, Spectrogram view, int first, int last) {
        double[] quiet = new double[view.bins()];
        double[] column = new double[level.length];
        for (int k = 0; k < quiet.length && level.length > 0; k++) {
            for (int f = 0; f < level.length; f++) {
                column[f] = level[f][k];
            }
            quiet[k] = Statistics.percentile(column, STEADY_PERCENT);
        }
        double[] smooth = neighbours(quiet, view, first, last);
        double[] steady = new double[quiet.length];
        Arrays.fill(steady, Double.NEGATIVE_INFINITY);
        for (int k = first; k <= last; k++) {
            if (quiet[k] - smooth[k] > STEADY_LINE_DB) {
                steady[k] = quiet[k];
            }
        }
        return steady;
    }

    private static double[] neighbours(double[] level, Spectrogram view, int first, int last) {
        int most = (int) Math.round(NEIGHBOUR_HZ / view.binHz());
        int floor = view.binOf(FLOOR_HZ);
        double[] smooth = new double[level.length];
        double[] work = new double[2 * most + 1];
        SlidingMedian sliding = new SlidingMedian(level, 2 * most + 1);
        for (int k = first; k <= last; k++) {
            int half = Math.min(most, Math.min(k - floor, level.length - 1 - k));
            if (half == most) {
                smooth[k] = sliding.startingAt(k - most);
            } else {
                System.arraycopy(level, k - half, work, 0, 2 * half + 1);
                smooth[k] = Statistics.medianInPlace(work, 2 * half + 1);
            }
        }
        return smooth;
    }

    int frames() {
        return excessDb.length;
    }

    int firstBin() {
        return firstBin;
    }

    int lastBin() {
        return lastBin;
    }

    /** How far a bin stands out, in dB; 0 outside the band looked at. */
    double excessDb(int frame, int bin) {
        return excessDb[frame][bin];
    }

    /** Level of a bin in dB. */
    double levelDb(int frame, int bin) {
        return levelDb[frame][bin];
    }
}
