package lungwort.guidance;

import java.time.LocalDate;
import java.util.Locale;

/**
 * The weight of an earlier round.
 *
 * @param day on which it was measured, in local time
 * @param daysBefore how many days before the round that is held against it; 0 on the same day
 * @param kg in kg
 */
public record EarlierWeight(LocalDate day, int daysBefore, double kg) {
    /** So many days back a rise is counted. European Society of Cardiology, guide for patients with heart failure, its page on weight gain [P]: more than 2 kg in 3 days. */
    public static final int DAYS_OF_RISE = 3;

    /** Older ones are held against nothing. Common practice. */
    public static final int OLDEST_DAYS = 365;

    /** @throws lungwort.BadInput if the weight is out of range */
    public EarlierWeight {
        Vital.WEIGHT.check(kg);
    }

    /** Number and day: "70.0 kg on 2026-03-02, 2 days before". */
    public String words() {
        String when = switch (daysBefore) {
            case 0 -> "earlier the same day";
            case 1 -> "the day before";
            default -> daysBefore + " days before";
        };
        return String.format(Locale.ROOT, "%.1f kg on %s, %s", kg, day, when);
    }
}
