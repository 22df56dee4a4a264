package lungwort.sound;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.signal.ChestViews;
import lungwort.signal.PitchTracker;

/**
 * Tones that are overtones of one fundamental.
 *
 * @param dominant the loudest of them
 * @param members all, in order of frequency
 * @param fundamentalHz median fundamental, in Hz
 */
record ToneGroup(Tone dominant, List<Tone> members, double fundamentalHz) {
    /** Two frequencies count as multiples of one if they are within this share. */
    private static final double IN_TUNE = 0.03;

    private static final int HIGHEST_DIVISOR = 5;

    /** YIN looks at 64 ms at a time: two periods of 31 Hz. */
    private static final int YIN_SAMPLES = 256;

    /** Sounds count as heard together from this share of the shorter one on. */
    private static final double TOGETHER = 0.5;

    private static final double TOGETHER_SECONDS = 0.05;

    /** Overtones above the dominant tone. */
    int harmonicsAbove() {
        return (int) members.stream()
                .filter(tone -> tone.medianHz() > 1.5 * dominant.medianHz())
                .count();
    }

    boolean soundsWith(ToneGroup other) {
        return together(dominant, other.dominant);
    }

    /** Groups tones, loudest first: each takes the overtones and undertones that sound with it. */
    static List<ToneGroup> group(List<Tone> tones, ChestViews views) {
        List<Tone> left = new ArrayList<>(tones);
        left.sort(Comparator.comparingDouble(Tone::levelDb).reversed());
        List<ToneGroup> groups = new ArrayList<>();
        while (!left.isEmpty()) {
            Tone dominant = left.remove(0);
            int divisor = divisor(dominant, left, views);
            List<Tone> members = new ArrayList<>(List.of(dominant));
            left.removeIf(tone -> isOvertone(dominant, tone, divisor) && members.add(tone));
            members.sort(Comparator.comparingDouble(Tone::medianHz));
            groups.add(new ToneGroup(dominant, List.copyOf(members), dominant.medianHz() / divisor));
        }
        return groups;
    }

    /** Which overtone of its fundamental the dominant tone is: 1 unless other tones, or YIN and another tone, tell of a lower fundamental. */
    private static int divisor(Tone dominant, List<Tone> others, ChestViews views) {
        int best = 1;
        long bestSupport = support(dominant, others, 1);
        double yinHz = Double.NaN;
        for (int n = 2; n <= HIGHEST_DIVISOR; n++) {
            long support = support(dominant, others, n);
            if (support <= bestSupport) {
                continue;
            }
            int divisor = n;
            boolean fundamentalSeen = others.stream().anyMatch(t -> inTune(dominant.ratioTo(t) * divisor, 1));
            yinHz = Double.isNaN(yinHz) ? yin(dominant, views) : yinHz;
            if (fundamentalSeen || inTune(yinHz * n / dominant.medianHz(), 1)) {
                best = n;
                bestSupport = support;
            }
        }
        return best;
    }

    private static long support(Tone dominant, List<Tone> others, int divisor) {
        return others.stream()
                .filter(tone -> isOvertone(dominant, tone, divisor))
                .count();
    }

    private static boolean isOvertone(Tone dominant, Tone tone, int divisor) {
        if (!together(dominant, tone)) {
            return false;
        }
        double order = dominant.ratioTo(tone) * divisor;
        return order > 0.5 && inTune(order, Math.round(order));
    }

    private static boolean inTune(double order, double whole) {
        return Math.abs(order - whole) <= IN_TUNE * whole;
    }

    private static boolean together(Tone one, Tone other) {
        double shorter = Math.min(one.lengthSeconds(), other.lengthSeconds());
        double overlap = one.overlapSeconds(other);
        return overlap >= TOGETHER * shorter && overlap >= Math.min(TOGETHER_SECONDS, shorter);
    }

    private static double yin(Tone tone, ChestViews views) {
        int from = (int) (tone.startSeconds() * ChestViews.RATE_HZ);
        int to = (int) Math.min(views.analysis().length, tone.endSeconds() * ChestViews.RATE_HZ);
        return PitchTracker.medianHz(views.analysis(), from, to, YIN_SAMPLES, ChestViews.RATE_HZ);
    }
}
