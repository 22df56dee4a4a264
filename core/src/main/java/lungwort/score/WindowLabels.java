package lungwort.score;

import java.util.List;
import lungwort.classify.RecordingClass;
import lungwort.classify.TrainingItem;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.RecordingLabel;
import lungwort.feature.TimeSpan;

/**
 * What windows of fixed length hold, by the annotated events they overlap: a sound counts if the overlap is over 40 % of the shorter of the two, and makes the window unclear
 * between 10 and 40 %. All windows of a recording of poor quality are of poor quality.
 */
final class WindowLabels {
    private static final double CLEAR_FROM = 0.4;
    private static final double UNCLEAR_FROM = 0.1;

    private WindowLabels() {}

    static int[] of(AnnotatedRecording r, List<TimeSpan> windows) {
        return windows.stream().mapToInt(w -> of(r, w)).toArray();
    }

    private static int of(AnnotatedRecording r, TimeSpan window) {
        if (r.label() == RecordingLabel.POOR_QUALITY) {
            return RecordingClass.POOR_QUALITY.ordinal();
        }
        double continuous = 0;
        double discontinuous = 0;
        for (AnnotatedEvent e : r.events()) {
            double share = share(e, window);
            continuous = e.label().continuous() ? Math.max(continuous, share) : continuous;
            discontinuous = e.label().discontinuous() ? Math.max(discontinuous, share) : discontinuous;
        }
        if (continuous > CLEAR_FROM || discontinuous > CLEAR_FROM) {
            return named(continuous > CLEAR_FROM, discontinuous > CLEAR_FROM).ordinal();
        }
        return Math.max(continuous, discontinuous) > UNCLEAR_FROM
                ? TrainingItem.LEFT_OUT
                : RecordingClass.NORMAL.ordinal();
    }

    private static double share(AnnotatedEvent e, TimeSpan w) {
        double overlap = Math.min(e.endSeconds(), w.endSeconds()) - Math.max(e.startSeconds(), w.startSeconds());
        double shorter = Math.min(e.durationSeconds(), w.endSeconds() - w.startSeconds());
        return Math.max(0, overlap) / shorter;
    }

    private static RecordingClass named(boolean continuous, boolean discontinuous) {
        if (continuous) {
            return discontinuous ? RecordingClass.BOTH : RecordingClass.CONTINUOUS;
        }
        return RecordingClass.DISCONTINUOUS;
    }
}
