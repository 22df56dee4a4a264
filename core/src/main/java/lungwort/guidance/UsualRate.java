package lungwort.guidance;

import java.util.Locale;
import java.util.Objects;

/**
 * A person's own usual breathing rate, counted awake.
 *
 * @param perMinute in breaths a minute
 * @param of what it is made of, as a phrase: "of 28 days from 2026-03-01 to 2026-03-31, none of which asked for a clinician"
 */
public record UsualRate(double perMinute, String of) {
    /**
     * A rise that counts in people with COPD, in breaths a minute: on the day before they were taken into hospital, a rise of the mean by so much told best (sensitivity 66 %, specificity 93 %; 89 people
     * with oxygen at home, rates measured by a device over hours). Yañez et al., Chest 2012;142(6):1524-1529, its abstract. That a count over one minute is held against the middle of earlier days in
     * the same way is common practice.
     */
    static final double RISE_PER_MINUTE = 4.4;

    /** @throws lungwort.BadInput if it is out of range */
    public UsualRate {
        Vital.RESPIRATORY_RATE.check(perMinute);
    }

    /** The lowest count that has risen as far. */
    int risen() {
        return (int) Math.ceil(perMinute + RISE_PER_MINUTE);
    }

    /** True for a rate that was counted awake and has risen as far: one that was heard may be twice or half the true one, and asleep is slower. */
    boolean risenIn(Vitals vitals) {
        Integer rate = vitals.respiratoryRatePerMinute();
        return rate != null
                && vitals.rateSource() != RateSource.HEARD
                && !Objects.equals(vitals.asleep(), true)
                && rate >= risen();
    }

    /** Number and origin: "15 breaths a minute (of 28 days from 2026-03-01 to 2026-03-31, none of which asked for a clinician)". */
    public String words() {
        return String.format(Locale.ROOT, "%s %s (%s)", Vital.number(perMinute), Vital.RESPIRATORY_RATE.unit(), of);
    }

    /** The limit in words, beginning small: "breathing rate 20 breaths a minute or more, more than 4 above this person's own usual". */
    String limitWords() {
        return String.format(
                Locale.ROOT,
                "%s %d %s or more, more than 4 above this person's own usual",
                Vital.RESPIRATORY_RATE.words(),
                risen(),
                Vital.RESPIRATORY_RATE.unit());
    }
}
