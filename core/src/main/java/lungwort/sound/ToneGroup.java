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
    /** An overtone's order may be off a whole number by this share of it, and by this much at most: high orders meet any frequency by chance. */
    private static final double IN_TUNE = 0.02;

    private static final double IN_TUNE_AT_MOST = 0.05;

    private static final int HIGHEST_DIVISOR = 5;

    /** The next overtone above a dominant tone that is itself the highest one asked for lies at 1.2 times its frequency; halfway there is above. */
    private static final double ABOVE = 1 + 0.5 / HIGHEST_DIVISOR;

    private static final int MOST_ASKED = 2;

    /** YIN looks at 64 ms at a time: two periods of 31 Hz. */
    private static final int YIN_SAMPLES = 256;

    /** Sounds count as heard together from this share of the shorter one on. */
    private static final double TOGETHER = 0.5;

    private static final double TOGETHER_SECONDS = 0.05;

    /** Overtones above the dominant tone. */
    int harmonicsAbove() {
        return (int) members.stream()
                .filter(tone -> tone.medianHz() > ABOVE * dominant.medianHz())
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

    /**
     * Which overtone of its fundamental the dominant tone is: 1 unless one more tone (for 2) or two more fall into place, and the fundamental itself is seen or YIN hears it.
     */
    private static int divisor(Tone dominant, List<Tone> others, ChestViews views) {
        int best = 1;
        long bestSupport = support(dominant, others, 1);
        double yinHz = Double.NaN;
        for (int n = 2; n <= HIGHEST_DIVISOR; n++) {
            long support = support(dominant, others, n);
            if (support < bestSupport + Math.min(n - 1, MOST_ASKED)) {
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
        return Math.abs(order - whole) <= Math.min(IN_TUNE_AT_MOST, IN_TUNE * whole);
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
