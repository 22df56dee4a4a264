package lungwort.guidance;

/**
 * A person's own usual SpO2.
 *
 * @param percent in %
 * @param of what it is made of, as a phrase: "of 28 days from 2026-03-01 to 2026-03-31, none of which asked for a clinician", or "stated by a clinician, from 2026-03-14 on"
 */
public record UsualSpo2(int percent, String of) {
    /** @throws lungwort.BadInput if it is out of range */
    public UsualSpo2 {
        Vital.SPO2.check(percent);
    }

    /** Number and origin: "97 % (of 28 days from 2026-03-01 to 2026-03-31, none of which asked for a clinician)". */
    public String words() {
        return percent + " % (" + of + ")";
    }
}
