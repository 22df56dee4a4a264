package lungwort.feature;

import lungwort.signal.Spectrogram;

/**
 * How far each frame's spectrum stands out of its own smoothed shape, and for how long it does so at one frequency: the trace of a continuous sound.
 *
 * <p>Prominence = level in dB minus a running median over about 240 Hz, smoothed, held in [0, 40] dB and averaged over three frames. A ridge that persists for T is what is
 * left after a running minimum over T in time; it may drift by one bin to either side within T.
 */
final class RidgeFrames {
    private static final double MEDIAN_HZ = 242;
    private static final double SMOOTH_HZ = 70;
    private static final double MAX_PROMINENCE_DB = 40;
    private static final double PEAK_DB = 8;

    /** Persistence times, in seconds: about 0.1 s (CORSA's shortest wheeze), 0.2 s and 0.4 s. */
    static final double[] PERSISTENCE_SECONDS = {0.112, 0.208, 0.4};

    static final int PEAK_MEASURES = 1 + PERSISTENCE_SECONDS.length;
    static final String[] MEASURES = measureNames();

    /** {@code measure[m][frame]}, see {@link #MEASURES}. */
    final double[][] measure;

    /** Frequency of the highest prominence, then of the highest persisting ones: {@code peakHz[p][frame]}. */
    final double[][] peakHz;

    final int frames;

    RidgeFrames(Spectrogram view) {
        frames = view.frames();
        int low = view.binOf(Bands.RIDGE_LOW_HZ);
        int bins = view.binOf(Bands.RIDGE_HIGH_HZ) - low;
        measure = new double[MEASURES.length][frames];
        peakHz = new double[PEAK_MEASURES][frames];
        double[][] prominence = prominence(view, low, bins);
        double[][] widened = widened(prominence);
        note(0, prominence, view, low);
        for (int t = 0; t < PERSISTENCE_SECONDS.length; t++) {
            int window = (int) Math.round(PERSISTENCE_SECONDS[t] / view.hopSeconds());
            double[][] held = persisting(widened, window);
            note(1 + t, held, view, low);
            if (t < 2) {
                noteBands(PEAK_MEASURES + (1 + t) * Bands.RIDGE_NAMES.length, held, view, low);
            }
        }
        noteBands(PEAK_MEASURES, prominence, view, low);
        noteShape(PEAK_MEASURES + 3 * Bands.RIDGE_NAMES.length, prominence, view, low);
    }

    private static String[] measureNames() {
        int bands = Bands.RIDGE_NAMES.length;
        String[] names = new String[PEAK_MEASURES + 3 * bands + 6];
        names[0] = "ridge.highest";
        names[1] = "ridge.held100ms";
        names[2] = "ridge.held200ms";
        names[3] = "ridge.held400ms";
        for (int b = 0; b < bands; b++) {
            names[4 + b] = "ridge.highest." + Bands.RIDGE_NAMES[b];
            names[4 + bands + b] = "ridge.held100ms." + Bands.RIDGE_NAMES[b];
            names[4 + 2 * bands + b] = "ridge.held200ms." + Bands.RIDGE_NAMES[b];
        }
        String[] shape = {"peaks", "peakShare", "entropy", "flatness", "centroid", "bandwidth"};
        for (int i = 0; i < shape.length; i++) {
            names[4 + 3 * bands + i] = "spectrum." + shape[i];
        }
        return names;
    }

    static String unit(int m) {
        return switch (m - PEAK_MEASURES - 3 * Bands.RIDGE_NAMES.length) {
            case 0, 1, 2 -> "1";
            case 4, 5 -> "Hz";
            default -> "dB";
        };
    }

    private double[][] prominence(Spectrogram view, int low, int bins) {
        int median = (int) Math.round(MEDIAN_HZ / view.binHz());
        int smooth = (int) Math.round(SMOOTH_HZ / view.binHz());
        int top = Math.min(view.bins(), view.binOf(1990));
        double[][] raw = new double[frames][bins];
        double[] level = new double[top];
        for (int f = 0; f < frames; f++) {
            double[] row = view.row(f);
            for (int k = 0; k < top; k++) {
                level[k] = 10 * Math.log10(row[k] + FeatureFrames.FLOOR_DENSITY);
            }
            double[] base = Sliding.mean(Sliding.median(level, median), smooth);
            for (int k = 0; k < bins; k++) {
                raw[f][k] = Math.max(0, Math.min(MAX_PROMINENCE_DB, level[low + k] - base[low + k]));
            }
        }
        return averagedOverThreeFrames(raw);
    }

    private double[][] averagedOverThreeFrames(double[][] raw) {
        double[][] mean = new double[frames][];
        for (int f = 0; f < frames; f++) {
            double[] a = raw[Math.max(0, f - 1)];
            double[] b = raw[f];
            double[] c = raw[Math.min(frames - 1, f + 1)];
            double[] row = new double[b.length];
            for (int k = 0; k < row.length; k++) {
                row[k] = (a[k] + b[k] + c[k]) / 3;
            }
            mean[f] = row;
        }
        return mean;
    }

    private static double[][] widened(double[][] p) {
        double[][] wide = new double[p.length][];
        for (int f = 0; f < p.length; f++) {
            wide[f] = Sliding.maximum(p[f], 3);
        }
        return wide;
    }

    private double[][] persisting(double[][] p, int window) {
        int bins = frames == 0 ? 0 : p[0].length;
        double[][] held = new double[frames][bins];
        double[] column = new double[frames];
        for (int k = 0; k < bins; k++) {
            for (int f = 0; f < frames; f++) {
                column[f] = p[f][k];
            }
            double[] least = Sliding.minimum(column, window);
            for (int f = 0; f < frames; f++) {
                held[f][k] = least[f];
            }
        }
        return held;
    }

    private void note(int m, double[][] p, Spectrogram view, int low) {
        for (int f = 0; f < frames; f++) {
            int best = argMax(p[f], 0, p[f].length);
            measure[m][f] = p[f][best];
            peakHz[m][f] = view.hzOf(low + best);
        }
    }

    private void noteBands(int m, double[][] p, Spectrogram view, int low) {
        for (int b = 0; b < Bands.RIDGE_NAMES.length; b++) {
            int from = Math.max(0, view.binOf(Bands.RIDGE_EDGES_HZ[b]) - low);
            int to = view.binOf(Bands.RIDGE_EDGES_HZ[b + 1]) - low;
            for (int f = 0; f < frames; f++) {
                measure[m + b][f] = p[f][argMax(p[f], from, Math.min(to, p[f].length))];
            }
        }
    }

    private static int argMax(double[] row, int from, int to) {
        int best = from;
        for (int k = from + 1; k < to; k++) {
            if (row[k] > row[best]) {
                best = k;
            }
        }
        return best;
    }

    /** Number of peaks, share of power at the highest peak, entropy, flatness, centroid and bandwidth of the power spectrum. */
    private void noteShape(int m, double[][] p, Spectrogram view, int low) {
        for (int f = 0; f < frames; f++) {
            double[] row = view.row(f);
            int bins = p[f].length;
            measure[m][f] = peaks(p[f]);
            double total = 1e-30;
            double moment = 0;
            double logs = 0;
            for (int k = 0; k < bins; k++) {
                double v = row[low + k] + FeatureFrames.FLOOR_DENSITY;
                total += v;
                moment += v * k;
                logs += Math.log10(v);
            }
            double centre = moment / total;
            double entropy = 0;
            double square = 0;
            for (int k = 0; k < bins; k++) {
                double share = (row[low + k] + FeatureFrames.FLOOR_DENSITY) / total;
                entropy -= share * Math.log(share);
                square += share * (k - centre) * (k - centre);
            }
            int best = argMax(p[f], 0, bins);
            double near = 0;
            for (int k = Math.max(0, best - 2); k <= Math.min(bins - 1, best + 2); k++) {
                near += row[low + k];
            }
            measure[m + 1][f] = near / total;
            measure[m + 2][f] = entropy;
            measure[m + 3][f] = 10 * (logs / bins - Math.log10(total / bins));
            measure[m + 4][f] = view.hzOf(low) + centre * view.binHz();
            measure[m + 5][f] = Math.sqrt(square) * view.binHz();
        }
    }

    private static int peaks(double[] row) {
        double[] highest = Sliding.maximum(row, 7);
        int n = 0;
        for (int k = 0; k < row.length; k++) {
            if (row[k] > PEAK_DB && row[k] >= highest[k]) {
                n++;
            }
        }
        return n;
    }
}
