package lungwort.examine;

import java.util.Comparator;
import java.util.List;
import lungwort.sound.MeasuredSound;

/** How much of a stretch of time sounds fill. */
public final class Cover {
    private Cover() {}

    /**
     * Seconds of a stretch that any of the sounds covers; where two overlap it counts once.
     *
     * @param sounds in any order
     * @param startSeconds start of the stretch
     * @param endSeconds its end
     * @return in [0, endSeconds - startSeconds]
     */
    public static double seconds(List<? extends MeasuredSound> sounds, double startSeconds, double endSeconds) {
        double seconds = 0;
        double reached = startSeconds;
        for (MeasuredSound sound : sounds.stream()
                .sorted(Comparator.comparingDouble(MeasuredSound::startSeconds))
                .toList()) {
            double from = Math.max(reached, sound.startSeconds());
            double to = Math.min(endSeconds, sound.endSeconds());
            if (to > from) {
                seconds += to - from;
                reached = to;
            }
        }
        return seconds;
    }
}
