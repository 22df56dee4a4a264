package lungwort.examine;

import java.util.List;
import lungwort.classify.HeardEvent;
import lungwort.classify.Judgement;
import lungwort.sound.MeasuredSound;

/** Which measured sounds are evidence: those the model hears too, and those that are clear by themselves. The rest are chance: every chest clicks and hums a little. */
final class Support {
    /** From this probability of its class in a window around it, a measured sound counts. */
    static final double MIN_PROBABILITY = 0.3;

    private Support() {}

    /** Whether the model hears it too: it is probable in a window around it. */
    static boolean heard(MeasuredSound sound, Judgement judgement) {
        return probability(sound, judgement) >= MIN_PROBABILITY;
    }

    /**
     * Those that count.
     *
     * @param named single sounds of the kinds that are suggested: what was measured in one counts
     */
    static List<MeasuredSound> supported(
            List<MeasuredSound> sounds, Judgement judgement, ClearSounds clear, List<HeardEvent> named) {
        return sounds.stream()
                .filter(sound -> clear.holds(sound)
                        || heard(sound, judgement)
                        || named.stream().anyMatch(event -> holds(event, sound)))
                .toList();
    }

    private static boolean holds(HeardEvent event, MeasuredSound sound) {
        double middle = middle(sound);
        return event.continuous() == sound.kind().continuous()
                && middle >= event.startSeconds()
                && middle < event.endSeconds();
    }

    /** Highest probability of the sound's class among the windows that hold its middle; 0 where none does. */
    static double probability(MeasuredSound sound, Judgement judgement) {
        double middle = middle(sound);
        return judgement.segments().stream()
                .filter(segment -> middle >= segment.startSeconds() && middle < segment.endSeconds())
                .mapToDouble(segment -> sound.kind().continuous() ? segment.continuous() : segment.discontinuous())
                .max()
                .orElse(0);
    }

    private static double middle(MeasuredSound sound) {
        return (sound.startSeconds() + sound.endSeconds()) / 2;
    }
}
