package lungwort.guidance;

import org.jspecify.annotations.Nullable;

/**
 * What the person feels or the caregiver sees. Null: not asked, which is never taken as absent.
 *
 * @param breathlessness more than usual
 * @param chestPain new pain or tightness in the chest
 * @param fever feels feverish, or had a fever today
 * @param chestInfection signs of a chest infection: new or worse cough, thick or coloured phlegm, shivering, feeling ill
 */
public record Symptoms(
        @Nullable Breathlessness breathlessness,
        @Nullable Boolean chestPain,
        @Nullable Boolean fever,
        @Nullable Boolean chestInfection) {
    /** Nothing was asked yet. */
    public static final Symptoms NOT_ASKED = new Symptoms(null, null, null, null);

    /** All were asked and answered with no. */
    public static final Symptoms ABSENT = new Symptoms(Breathlessness.NONE, false, false, false);

    public Symptoms withBreathlessness(@Nullable Breathlessness value) {
        return new Symptoms(value, chestPain, fever, chestInfection);
    }

    public Symptoms withChestPain(@Nullable Boolean value) {
        return new Symptoms(breathlessness, value, fever, chestInfection);
    }

    public Symptoms withFever(@Nullable Boolean value) {
        return new Symptoms(breathlessness, chestPain, value, chestInfection);
    }

    public Symptoms withChestInfection(@Nullable Boolean value) {
        return new Symptoms(breathlessness, chestPain, fever, value);
    }
}
