package lungwort.feature;

import java.util.ArrayList;
import java.util.List;

/**
 * Tones of a recording: spectral peaks that stand out of their surroundings and hold, linked from frame to frame.
 *
 * <p>A simple partial tracker (McAulay and Quatieri 1986) over {@link RidgeFrames}' prominence: peaks of at least 6 dB, at most four a frame, linked within two bins, gaps of
 * two frames bridged, kept from 96 ms (CORSA: a wheeze lasts over 100 ms).
 */
final class ToneTracks {
    private static final double PEAK_DB = 6;
    private static final int PEAKS = 4;
    private static final int REACH_BINS = 2;
    private static final int GAP_FRAMES = 2;
    private static final int LEAST_FRAMES = 6;

    /**
     * One tone.
     *
     * @param from first frame
     * @param to one past the last frame
     * @param prominenceDb mean over its frames
     * @param hz mean frequency
     */
    record Tone(int from, int to, double prominenceDb, double hz) {
        int frames() {
            return to - from;
        }
    }

    private ToneTracks() {}

    /** A tone that may still go on. */
    private static final class Track {
        final int from;
        int bin;
        int last;
        int seen;
        double prominence;
        double bins;

        Track(int frame) {
            from = frame;
        }

        void add(int frame, int at, double value) {
            bin = at;
            last = frame;
            seen++;
            prominence += value;
            bins += at;
        }
    }

    /**
     * @param prominence in dB, {@code [frame][bin]}
     * @param lowHz frequency of the first bin
     * @param binHz width of a bin
     * @return in the order in which they end
     */
    static List<Tone> find(double[][] prominence, double lowHz, double binHz) {
        List<Tone> tones = new ArrayList<>();
        List<Track> active = new ArrayList<>();
        for (int f = 0; f < prominence.length; f++) {
            boolean[] taken = new boolean[prominence[f].length];
            int[] peaks = peaks(prominence[f]);
            for (Track track : active) {
                int peak = nearest(peaks, track.bin, taken);
                if (peak >= 0) {
                    taken[peak] = true;
                    track.add(f, peak, prominence[f][peak]);
                }
            }
            for (int peak : peaks) {
                if (!taken[peak]) {
                    Track track = new Track(f);
                    track.add(f, peak, prominence[f][peak]);
                    active.add(track);
                }
            }
            close(active, f, tones, lowHz, binHz);
        }
        close(active, Integer.MAX_VALUE, tones, lowHz, binHz);
        return tones;
    }

    private static void close(List<Track> active, int frame, List<Tone> tones, double lowHz, double binHz) {
        for (Track t : active) {
            if (frame - t.last > GAP_FRAMES && t.last - t.from + 1 >= LEAST_FRAMES) {
                tones.add(new Tone(t.from, t.last + 1, t.prominence / t.seen, lowHz + binHz * t.bins / t.seen));
            }
        }
        active.removeIf(t -> frame - t.last > GAP_FRAMES);
    }

    /** The highest local maxima, highest first. */
    private static int[] peaks(double[] row) {
        int[] best = new int[PEAKS];
        int n = 0;
        for (int k = 1; k < row.length - 1; k++) {
            if (row[k] < PEAK_DB || row[k] < row[k - 1] || row[k] <= row[k + 1]) {
                continue;
            }
            int at = Math.min(n, PEAKS);
            while (at > 0 && row[best[at - 1]] < row[k]) {
                if (at < PEAKS) {
                    best[at] = best[at - 1];
                }
                at--;
            }
            if (at < PEAKS) {
                best[at] = k;
                n = Math.min(PEAKS, n + 1);
            }
        }
        return java.util.Arrays.copyOf(best, n);
    }

    private static int nearest(int[] peaks, int bin, boolean[] taken) {
        int found = -1;
        for (int peak : peaks) {
            int distance = Math.abs(peak - bin);
            if (!taken[peak] && distance <= REACH_BINS && (found < 0 || distance < Math.abs(found - bin))) {
                found = peak;
            }
        }
        return found;
    }
}
