package lungwort.sound;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import lungwort.signal.Spectrogram;
import lungwort.signal.Statistics;

/** Links the peaks of a {@link RidgeMap} from frame to frame, strongest first. */
final class RidgeTracker {
    /** A peak is looked at from here on: usual noise passes it in about 3 % of its bins. */
    static final double PEAK_DB = 7;

    /** A ridge may be lost for this long: 48 ms. */
    private static final int GAP_FRAMES = 3;

    /** How fast a ridge may glide, per frame of 16 ms: 8 Hz and 2 % (1000 Hz/s at 400 Hz). */
    private static final double GLIDE_HZ = 8;

    private static final double GLIDE_SHARE = 0.02;

    /** How far above a Hann window's side lobes, as they fall off, a peak must stand to be a tone of its own, in dB: where a tone swells or stops within the window its lobes are higher. */
    private static final double OVER_LOBES_DB = 6;

    /** A Hann window's main lobe ends two bins of an unpadded transform from its middle. */
    private static final double MAIN_LOBE_BINS = 2;

    private RidgeTracker() {}

    private record Peak(double hz, double excessDb, double levelDb) {}

    private static final class Open {
        final int firstFrame;
        final List<Peak> peaks = new ArrayList<>();
        int missed;

        Open(int firstFrame) {
            this.firstFrame = firstFrame;
        }

        double lastHz() {
            return peaks.get(peaks.size() - 1 - missed).hz;
        }
    }

    /** All ridges of at least two frames, in order of their first frame. */
    static List<Ridge> track(RidgeMap map, Spectrogram view) {
        List<Ridge> done = new ArrayList<>();
        List<Open> open = new ArrayList<>();
        for (int f = 0; f < map.frames(); f++) {
            List<Peak> peaks = peaks(map, view, f);
            boolean[] taken = new boolean[peaks.size()];
            open.sort(Comparator.comparingDouble(RidgeTracker::recentDb).reversed());
            for (Open ridge : open) {
                extend(ridge, peaks, taken);
            }
            close(open, done);
            for (int i = 0; i < taken.length; i++) {
                if (!taken[i]) {
                    Open fresh = new Open(f);
                    fresh.peaks.add(peaks.get(i));
                    open.add(fresh);
                }
            }
        }
        open.forEach(ridge -> finish(ridge, done));
        done.sort(Comparator.comparingInt(Ridge::firstFrame).thenComparingDouble(r -> r.hz()[0]));
        return done;
    }

    private static double recentDb(Open ridge) {
        Peak last = ridge.peaks.get(ridge.peaks.size() - 1 - ridge.missed);
        return Math.min(ridge.peaks.size(), 10) + last.excessDb;
    }

    private static void extend(Open ridge, List<Peak> peaks, boolean[] taken) {
        double reach = (GLIDE_HZ + GLIDE_SHARE * ridge.lastHz()) * (1 + 0.5 * ridge.missed);
        int best = -1;
        double bestScore = 0;
        for (int i = 0; i < taken.length; i++) {
            double far = Math.abs(peaks.get(i).hz - ridge.lastHz()) / reach;
            double score = peaks.get(i).excessDb * (1 - far);
            if (!taken[i] && far < 1 && score > bestScore) {
                best = i;
                bestScore = score;
            }
        }
        if (best >= 0) {
            taken[best] = true;
            ridge.peaks.add(peaks.get(best));
            ridge.missed = 0;
        } else {
            ridge.peaks.add(new Peak(ridge.lastHz(), Double.NaN, Double.NaN));
            ridge.missed++;
        }
    }

    private static void close(List<Open> open, List<Ridge> done) {
        open.removeIf(ridge -> {
            if (ridge.missed <= GAP_FRAMES) {
                return false;
            }
            finish(ridge, done);
            return true;
        });
    }

    private static void finish(Open ridge, List<Ridge> done) {
        int n = ridge.peaks.size() - ridge.missed;
        if (n < 2) {
            return;
        }
        double[] hz = new double[n];
        double[] excess = new double[n];
        double[] level = new double[n];
        for (int i = 0; i < n; i++) {
            Peak peak = ridge.peaks.get(i);
            hz[i] = peak.hz;
            excess[i] = peak.excessDb;
            level[i] = peak.levelDb;
        }
        fillGaps(hz, excess);
        done.add(new Ridge(ridge.firstFrame, hz, excess, level));
    }

    private static void fillGaps(double[] hz, double[] excess) {
        int last = 0;
        for (int i = 1; i < hz.length; i++) {
            if (!Double.isNaN(excess[i])) {
                for (int j = last + 1; j < i; j++) {
                    hz[j] = hz[last] + (hz[i] - hz[last]) * (j - last) / (i - last);
                }
                last = i;
            }
        }
    }

    private static List<Peak> peaks(RidgeMap map, Spectrogram view, int frame) {
        List<Peak> found = new ArrayList<>();
        for (int k = map.firstBin() + 1; k < map.lastBin(); k++) {
            double here = map.levelDb(frame, k);
            double before = map.levelDb(frame, k - 1);
            double after = map.levelDb(frame, k + 1);
            if (map.excessDb(frame, k) >= PEAK_DB && here > before && here >= after) {
                double curve = before - 2 * here + after;
                double shift = curve < 0 ? (before - after) / (2 * curve) : 0;
                double hz = (k + shift) * view.binHz();
                found.add(new Peak(hz, map.excessDb(frame, k), here - (before - after) * shift / 4));
            }
        }
        return found.stream()
                .filter(peak -> found.stream().noneMatch(other -> isSideLobe(peak, other, view.frameSeconds())))
                .toList();
    }

    /** True if a peak is no louder than what a louder one leaks to there through its Hann window. */
    private static boolean isSideLobe(Peak peak, Peak louder, double frameSeconds) {
        double bins = Math.abs(peak.hz - louder.hz) * frameSeconds;
        return bins > MAIN_LOBE_BINS && peak.levelDb < louder.levelDb + lobeDb(bins) + OVER_LOBES_DB;
    }

    /** Height of a Hann window's side lobes at a distance from a tone, in dB below it: the envelope of its transform, sinc(d) / (1 - d^2) (Harris 1978), 32 dB at the first one. */
    static double lobeDb(double bins) {
        return -20 * Math.log10(Math.PI * bins * (bins * bins - 1));
    }

    /** Median of the values that are numbers. */
    static double median(double[] x) {
        double[] real = Arrays.stream(x).filter(v -> !Double.isNaN(v)).toArray();
        return Statistics.median(real);
    }
}
