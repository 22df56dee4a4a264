package lungwort.sound;

import java.util.ArrayList;
import java.util.List;
import lungwort.signal.ChestViews;

/**
 * Finds crackles: short transients over the local noise, measured by their zero crossings, what is no crackle left out, named by {@link SoundLimits}.
 *
 * <p>Real chests click: at SPRSound's events annotated normal about two a second are found (six in fine crackles, four in coarse ones), so a count says more than a crackle, and friction of the chest
 * piece is not told from fine crackles in all cases. The widths by which a crackle is named are the largest deflection's; the initial one's is right only where the crackle stands well over
 * the noise.
 */
public final class CrackleFinder {
    /** Least log-likelihood ratio of a transient ({@link TransientMap}): usual breath noise reaches it less than once in two minutes (synthesised noise, 12 to 35 breaths a minute). */
    static final double LEAST_SCORE = 20;

    /** The largest deflection lies within this of the middle of the loudest frame. */
    private static final int SEARCH_SAMPLES = 24;

    /** Two transients closer than this are one. */
    private static final double APART_SECONDS = 0.008;

    private CrackleFinder() {}

    /** With CORSA's limits. */
    public static List<Crackle> find(ChestViews views) {
        return find(views, SoundLimits.CORSA);
    }

    /**
     * @param views of the recording or of a part of it of at least half a second
     * @param limits which crackle is fine and which coarse, and how long any may be
     * @return in order of start; empty for silence or a very short recording
     */
    public static List<Crackle> find(ChestViews views, SoundLimits limits) {
        return find(SoundSearch.in(views), limits);
    }

    /** As {@link #find(ChestViews, SoundLimits)}, of a recording that was searched already. */
    public static List<Crackle> find(SoundSearch search, SoundLimits limits) {
        int rateHz = search.views().recording().sampleRateHz();
        return search.transients().stream()
                .filter(one -> one.score() >= LEAST_SCORE && one.isCrackle(rateHz, limits))
                .map(one -> one.named(limits))
                .toList();
    }

    static List<Transient> transients(ChestViews views, double leastScore) {
        TransientMap map = TransientMap.of(views);
        int apart = (int) Math.round(APART_SECONDS * ChestViews.CRACKLE_RATE_HZ / TransientMap.HOP);
        List<Transient> found = new ArrayList<>();
        for (int f = 0; f < map.frames(); f++) {
            if (map.score(f) >= leastScore && isHighest(map, f, apart)) {
                int middle = map.startOf(f) + TransientMap.FRAME / 2;
                CrackleShapeMeasure shape = CrackleShapeMeasure.at(
                        views.crackle(), middle - SEARCH_SAMPLES, middle + SEARCH_SAMPLES, ChestViews.CRACKLE_RATE_HZ);
                if (shape != null) {
                    found.add(new Transient(map.score(f), map.highShare(f), shape));
                }
            }
        }
        return found;
    }

    private static boolean isHighest(TransientMap map, int frame, int apart) {
        for (int f = Math.max(0, frame - apart); f <= Math.min(map.frames() - 1, frame + apart); f++) {
            if (map.score(f) > map.score(frame) || map.score(f) == map.score(frame) && f < frame) {
                return false;
            }
        }
        return true;
    }
}
