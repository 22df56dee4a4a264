package lungwort.feature;

import java.util.ArrayList;
import java.util.List;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.signal.ChestViews;
import lungwort.sound.SoundSearch;

/** Feature vectors of one recording: of any time span of it, and of the whole. What they share is computed once. Safe to share between threads. */
public final class FeatureExtractor {
    /** Length of the windows that a recording is cut into where nobody marked events: about one breath of a child at rest [C]. */
    public static final double WINDOW_SECONDS = 1.6;

    /** From one window to the next. */
    public static final double WINDOW_HOP_SECONDS = 0.8;

    private final FeatureFrames frames;
    private final ChestViews views;

    private FeatureExtractor(FeatureFrames frames, ChestViews views) {
        this.frames = frames;
        this.views = views;
    }

    /** Measures a recording of any length and rate. */
    public static FeatureExtractor of(ChestViews views) {
        return of(SoundSearch.in(views), BreathTracker.track(views.recording()));
    }

    /** Measures a recording that was searched already, and whose breaths were tracked. */
    public static FeatureExtractor of(SoundSearch search, Breathing breathing) {
        return new FeatureExtractor(new FeatureFrames(search, breathing), search.views());
    }

    /**
     * Features of a time span, in the order of {@link FeatureCatalogue#segment()}.
     *
     * @param startSeconds start; held inside the recording
     * @param endSeconds end; held inside the recording, not before the start; spans under 64 ms are widened
     * @return all finite
     */
    public float[] segment(double startSeconds, double endSeconds) {
        FeatureWriter writer = FeatureWriter.filling(FeatureCatalogue.segment().size());
        double start = Math.max(0, Math.min(frames.seconds, startSeconds));
        double end = Math.max(start, Math.min(frames.seconds, endSeconds));
        SegmentFeatures.write(frames, start, end, writer);
        return writer.values();
    }

    /** Features of the whole recording, in the order of {@link FeatureCatalogue#recording()}; all finite. */
    public float[] recording() {
        FeatureWriter writer =
                FeatureWriter.filling(FeatureCatalogue.recording().size());
        RecordingFeatures.write(frames, writer);
        return writer.values();
    }

    /** The recording as {@link MelImage} says: shape {@code [64][frames of 20 ms]}, all finite; computed when it is asked for. */
    public float[][] image() {
        return MelImage.of(views.crackle());
    }

    /** Overlapping windows that cover the recording evenly; one that holds it whole if it is shorter than a window. */
    public List<TimeSpan> windows() {
        double length = Math.max(0.1, frames.seconds);
        double window = Math.min(WINDOW_SECONDS, length);
        int n = 1 + (int) Math.round((length - window) / WINDOW_HOP_SECONDS);
        List<TimeSpan> spans = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            double start = n == 1 ? 0 : (length - window) * i / (n - 1);
            spans.add(new TimeSpan(start, start + window));
        }
        return spans;
    }
}
