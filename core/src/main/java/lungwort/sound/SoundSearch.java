package lungwort.sound;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.signal.ChestViews;

/**
 * Everything in a recording that might be an extra sound, searched for once: tones and bursts down to far weaker ones than those that get a name. The finders name the strong ones, the
 * features count them all.
 */
public final class SoundSearch {
    /** Least strength of the tones listed; from 1 on they are hardly noise ({@link ToneFinder}). */
    public static final double LEAST_STRENGTH = 0.2;

    /** Least score of the bursts listed; named crackles have 20 at least. */
    public static final double LEAST_SCORE = 8;

    private final ChestViews views;
    private final List<Tone> tones;
    private final List<Transient> transients;
    private final List<Burst> bursts;

    private SoundSearch(ChestViews views) {
        this.views = views;
        this.tones = ToneFinder.find(views, LEAST_STRENGTH);
        this.transients = CrackleFinder.transients(views, LEAST_SCORE);
        this.bursts = transients.stream()
                .map(t -> t.described(views.recording().sampleRateHz()))
                .toList();
    }

    /** Searches a recording of any length; silence holds nothing. */
    public static SoundSearch in(ChestViews views) {
        return new SoundSearch(views);
    }

    /** What was searched. */
    public ChestViews views() {
        return views;
    }

    /** Tones from {@link #LEAST_STRENGTH} on, strongest first. */
    public List<Tone> tones() {
        return tones;
    }

    /** Bursts from {@link #LEAST_SCORE} on, in order of time. */
    public List<Burst> bursts() {
        return bursts;
    }

    /** All sounds that get a name by CORSA's limits, in order of time. */
    public List<MeasuredSound> sounds() {
        List<MeasuredSound> sounds = new ArrayList<>(ContinuousSoundFinder.find(this, SoundLimits.CORSA));
        sounds.addAll(CrackleFinder.find(this, SoundLimits.CORSA));
        sounds.sort(Comparator.comparingDouble(MeasuredSound::startSeconds));
        return List.copyOf(sounds);
    }

    List<Transient> transients() {
        return transients;
    }
}
