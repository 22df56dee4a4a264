package lungwort.sound;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lungwort.signal.ChestViews;

/**
 * Finds wheezes and rhonchi: spectral ridges that hold, measured, joined with their overtones and named by {@link SoundLimits}.
 *
 * <p>A lone ridge of usual breath noise is taken for a tone about once in ten minutes (measured on synthesised noise; see the tests).
 * Only ridges from 80 to 1800 Hz are looked at: the analysis rate of 4 kHz holds no more, and wheezes through a chest wall lie below 1 kHz. At SPRSound's annotated events (children, one
 * stethoscope; patients not used in choosing the thresholds) named sounds lie in 64 % of the wheezes and 7 % of the normal breaths; a third of the events called wheeze there
 * hold no tone of 100 ms.
 */
public final class ContinuousSoundFinder {
    private ContinuousSoundFinder() {}

    /** With CORSA's limits. */
    public static List<ContinuousSound> find(ChestViews views) {
        return find(views, SoundLimits.CORSA);
    }

    /**
     * @param views of the whole recording: steady hum is told from a wheeze by lasting all of it
     * @param limits which sounds get which name; a tone without a name is left out
     * @return in order of start; empty for silence or a recording shorter than 64 ms
     */
    public static List<ContinuousSound> find(ChestViews views, SoundLimits limits) {
        return find(SoundSearch.in(views), limits);
    }

    /** As {@link #find(ChestViews, SoundLimits)}, of a recording that was searched already. */
    public static List<ContinuousSound> find(SoundSearch search, SoundLimits limits) {
        List<Tone> tones = search.tones().stream()
                .filter(tone -> tone.strength() >= ToneFinder.HARDLY_NOISE)
                .toList();
        List<Named> named = ToneGroup.group(tones, search.views()).stream()
                .flatMap(group -> Named.by(limits, group).stream())
                .toList();
        List<ContinuousSound> found = new ArrayList<>();
        for (Named one : named) {
            boolean polyphonic = named.stream().anyMatch(other -> other != one && other.group.soundsWith(one.group));
            found.add(sound(one.kind, one.group, polyphonic));
        }
        found.sort(Comparator.comparingDouble(ContinuousSound::startSeconds)
                .thenComparingDouble(ContinuousSound::dominantHz));
        return List.copyOf(found);
    }

    private record Named(SoundKind kind, ToneGroup group) {
        static Optional<Named> by(SoundLimits limits, ToneGroup group) {
            return limits.continuousKind(group.fundamentalHz(), group.dominant().lengthSeconds())
                    .map(kind -> new Named(kind, group));
        }
    }

    private static ContinuousSound sound(SoundKind kind, ToneGroup group, boolean polyphonic) {
        Tone main = group.dominant();
        return new ContinuousSound(
                kind,
                main.startSeconds(),
                main.endSeconds(),
                main.track(),
                main.medianHz(),
                group.harmonicsAbove(),
                polyphonic,
                main.continuity(),
                main.prominenceDb());
    }
}
