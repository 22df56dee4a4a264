package lungwort.guidance;

import java.util.Locale;

/**
 * A usual that moved little by little, so that no single day stood out from those before it.
 *
 * @param vital SpO2, which fell, or the breathing rate, which rose
 * @param how how the SpO2 was measured, as words: "on oxygen"; empty for values without it, and of the rate
 * @param then the best usual of the last year, in the unit of the vital sign
 * @param when from when that is, as words: "in January 2026"
 * @param now the usual of the newest days that asked for no clinician
 * @param of which days these are, as words: "12 days from 2026-11-01 to 2026-11-28"
 */
public record SlowChange(Vital vital, String how, double then, String when, double now, String of) {
    /** A rise of the usual breathing rate that is told, in breaths a minute: more than twice what two counts differ by. Common practice. */
    private static final double RISE_OF_RATE = 5;

    /** True if it is as large as to be told: for SpO2 as large as the fall that counts from one day to the next. That it counts over months, too, is common practice. */
    public boolean counts() {
        return switch (vital) {
            case SPO2 -> then - now >= Facts.FALL_OF_SPO2_PERCENT;
            case RESPIRATORY_RATE -> now - then >= RISE_OF_RATE;
            default -> false;
        };
    }

    /** As a sentence: "The usual SpO2 was 97 % in January 2026, it is 94 % now (12 days from 2026-11-01 to 2026-11-28)." */
    public String words() {
        return String.format(
                Locale.ROOT,
                "The usual %s%s was %s %s %s, it is %s %s now (%s).",
                vital.words(),
                how.isEmpty() ? "" : " " + how,
                Vital.number(then),
                vital.unit(),
                when,
                Vital.number(now),
                vital.unit(),
                of);
    }
}
