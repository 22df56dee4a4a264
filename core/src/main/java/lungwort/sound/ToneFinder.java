package lungwort.sound;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.signal.ChestViews;
import lungwort.signal.Spectrogram;

/** Ridges of both windows that are strong enough to be tones, each once, with their edges measured in the samples. What a tone is called is {@link ContinuousSoundFinder}'s to say. */
public final class ToneFinder {
    /** From this strength on a tone is hardly noise. */
    static final double HARDLY_NOISE = 1;

    /** Only what a ridge rises beyond this counts towards its strength, in dB. */
    private static final double COUNTED_FROM_DB = 10;

    /**
     * The least strength of a tone, in dB s (decibels beyond {@value #COUNTED_FROM_DB} dB, summed over time), for each window: usual breath noise reaches it about once in ten minutes
     * (synthesised noise, 8 to 40 breaths a minute).
     */
    private static final double LONG_STRENGTH = 0.32;

    private static final double MIDDLE_STRENGTH = 0.24;

    private static final double LOW_HZ = 80;
    private static final double LONG_TO_HZ = 1000;
    private static final double MIDDLE_FROM_HZ = 120;
    private static final double HIGH_HZ = 1800;

    /** Two ridges closer than this are one tone seen in two windows. */
    private static final double SAME_HZ = 25;

    private ToneFinder() {}

    private record Candidate(Ridge ridge, Spectrogram view, double strength) {
        double startSeconds() {
            return view.secondsOf(ridge.firstFrame());
        }

        double endSeconds() {
            return view.secondsOf(ridge.lastFrame());
        }

        double hzAt(double t) {
            int i = view.frameOf(t) - ridge.firstFrame();
            return ridge.hz()[Math.max(0, Math.min(ridge.frames() - 1, i))];
        }
    }

    /**
     * Tones whatever their length and pitch (80 to 1800 Hz), strongest first.
     *
     * @param leastStrength above 0; what has strength 1 comes from usual breath noise about once in ten minutes, weaker ones come more often
     */
    public static List<Tone> find(ChestViews views, double leastStrength) {
        List<Candidate> all = new ArrayList<>();
        collect(all, views.longWindow(), LOW_HZ, LONG_TO_HZ, LONG_STRENGTH, leastStrength);
        collect(all, views.middleWindow(), MIDDLE_FROM_HZ, HIGH_HZ, MIDDLE_STRENGTH, leastStrength);
        all.sort(Comparator.comparingDouble(Candidate::strength).reversed());
        List<Candidate> kept = new ArrayList<>();
        for (Candidate one : all) {
            if (kept.stream().noneMatch(other -> same(one, other))) {
                kept.add(one);
            }
        }
        return kept.stream().map(one -> measured(one, views)).toList();
    }

    private static void collect(
            List<Candidate> all, Spectrogram view, double fromHz, double toHz, double unit, double least) {
        RidgeMap map = RidgeMap.of(view, fromHz, toHz);
        for (Ridge ridge : RidgeTracker.track(map, view)) {
            double strength = ridge.strength(COUNTED_FROM_DB) * view.hopSeconds() / unit;
            if (strength >= least) {
                all.add(new Candidate(ridge, view, strength));
            }
        }
    }

    private static boolean same(Candidate weak, Candidate strong) {
        double from = Math.max(weak.startSeconds(), strong.startSeconds());
        double to = Math.min(weak.endSeconds(), strong.endSeconds());
        double length = weak.endSeconds() - weak.startSeconds();
        if (to - from < 0.5 * length) {
            return false;
        }
        double middle = (from + to) / 2;
        return Math.abs(weak.hzAt(middle) - strong.hzAt(middle)) < SAME_HZ;
    }

    private static Tone measured(Candidate one, ChestViews views) {
        Ridge ridge = one.ridge;
        double[] seconds = IntStream.range(0, ridge.frames())
                .mapToDouble(i -> one.view.secondsOf(ridge.firstFrame() + i))
                .toArray();
        double margin = one.view.frameSeconds() / 2;
        ToneEnvelope.Span span = ToneEnvelope.edges(views.analysis(), ChestViews.RATE_HZ, seconds, ridge.hz(), margin);
        int from = 0;
        int to = seconds.length;
        while (to - from > 1 && seconds[from] < span.startSeconds()) {
            from++;
        }
        while (to - from > 1 && seconds[to - 1] > span.endSeconds()) {
            to--;
        }
        double[] excess = Arrays.copyOfRange(ridge.excessDb(), from, to);
        double level = RidgeTracker.median(ridge.levelDb());
        return new Tone(
                span.startSeconds(),
                span.endSeconds(),
                Arrays.copyOfRange(seconds, from, to),
                Arrays.copyOfRange(ridge.hz(), from, to),
                excess,
                level,
                one.strength);
    }
}
