package lungwort.round;

import lungwort.diary.Trend;

/**
 * The day of the round against this person's earlier days.
 *
 * @param measure what
 * @param value on that day, in the measure's unit
 * @param how how it was measured, as words: "in air" or "on oxygen"; empty where that was not said, and of other measures than SpO2
 * @param usual the earlier days
 * @param outside true if it lies outside all of the earlier days
 */
public record AgainstUsual(Trend.Measure measure, double value, String how, Trend.Usual usual, boolean outside) {
    /** The same where there is nothing to say of how. */
    public AgainstUsual(Trend.Measure measure, double value, Trend.Usual usual, boolean outside) {
        this(measure, value, "", usual, outside);
    }

    static AgainstUsual of(Trend.Measure measure, double value, String how, Trend.Usual usual) {
        return new AgainstUsual(measure, value, how, usual, value < usual.lowest() || value > usual.highest());
    }

    /** The first, but where only the second tells a change: that ill days are left out, or that others lie far back, must hide none. */
    static AgainstUsual moreTelling(AgainstUsual first, AgainstUsual ofLastDays) {
        return !first.changed() && ofLastDays.changed() ? ofLastDays : first;
    }

    /** True if it lies outside, and further from the usual than the same thing measured twice does: only that is told as a change. */
    public boolean changed() {
        return outside && Math.abs(value - usual.median()) > Noise.ofTwoTakes(measure);
    }

    /** Where it lies, in words; empty within the earlier days. */
    public String words() {
        if (!outside) {
            return "";
        }
        return changed()
                ? "OUTSIDE what is usual for this person"
                : "outside the earlier days, though the same thing measured twice may differ as much";
    }
}
