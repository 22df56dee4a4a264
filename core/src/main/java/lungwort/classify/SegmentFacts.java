package lungwort.classify;

import java.util.ArrayList;
import java.util.List;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;

/** What a net and the measured sounds say of a marked segment: its {@link EventFacts}, then the net's logits of the whole recording. */
final class SegmentFacts {
    /** Names of the facts, in order. */
    static final List<String> NAMES = names();

    private SegmentFacts() {}

    private static List<String> names() {
        List<String> names = new ArrayList<>(EventFacts.NAMES);
        names.addAll(PoolFeatures.NET_NAMES);
        return List.copyOf(names);
    }

    /**
     * @param spans of the segments
     * @param seen what the net saw in the recording
     * @param sounds measured in it
     * @param whole class probabilities of the recording by itself
     * @return shape {@code [segments][facts]}, in the order of {@link #NAMES}
     */
    static float[][] of(List<TimeSpan> spans, NetLook seen, List<MeasuredSound> sounds, double[] whole) {
        EventFacts facts = new EventFacts(seen.frames(), sounds, whole);
        float[][] rows = new float[spans.size()][];
        for (int s = 0; s < rows.length; s++) {
            float[] own = facts.of(spans.get(s));
            rows[s] = java.util.Arrays.copyOf(own, NAMES.size());
            for (int m = 0; m < ChestNet.OUTPUTS; m++) {
                rows[s][own.length + m] = (float) seen.logits()[m];
            }
        }
        return rows;
    }
}
