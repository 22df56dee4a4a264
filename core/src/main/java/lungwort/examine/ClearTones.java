package lungwort.examine;

import java.util.List;
import lungwort.sound.ContinuousSound;
import lungwort.sound.MeasuredSound;

/**
 * Tones so clear that their measurement alone makes a suggestion, whatever the learnt model says: it has heard one kind of stethoscope, and a wheeze through another one is
 * still a wheeze.
 */
final class ClearTones {
    /** Shortest tone that counts, in seconds: the length by which the American Thoracic Society defined continuous sounds in 1977 (second-hand). */
    static final double MIN_SECONDS = 0.25;

    /** How far it must stand over its surroundings, in dB; chosen on SPRSound's training set, where the model card gives its false alarms. */
    static final double MIN_PROMINENCE_DB = 18;

    /** One may be a creak of the chair; two are a pattern. */
    static final int MIN_COUNT = 2;

    /** Said first among the reasons when the model alone would not have suggested it. */
    static final String REASON =
            "Clear tones were measured that fit the definition of a wheeze or rhonchus, though the learnt model alone would not suggest one.";

    private ClearTones() {}

    static boolean in(List<MeasuredSound> sounds) {
        return sounds.stream().filter(ClearTones::clear).count() >= MIN_COUNT;
    }

    static boolean clear(MeasuredSound sound) {
        return sound instanceof ContinuousSound tone
                && tone.durationSeconds() >= MIN_SECONDS
                && tone.prominenceDb() >= MIN_PROMINENCE_DB;
    }
}
