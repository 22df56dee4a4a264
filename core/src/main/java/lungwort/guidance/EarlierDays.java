package lungwort.guidance;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a person's earlier days say of a day. Values in air and on extra oxygen each make their own usual: oxygen lifts the number, so that one on oxygen can look as usual though the person now needs
 * oxygen for it. Common practice.
 *
 * @param usualInAir what a value in room air is held against; null where too few days are known
 * @param usualOnOxygen what a value on extra oxygen is held against; null where too few days are known
 * @param usualNotSaid what a value is held against of which nobody said how it was measured: of several the highest, from which a fall shows sooner; null where too few days are known
 * @param withoutOxygen true if this person was measured without extra oxygen until now, so that to need it would be new
 * @param slowChanges usuals that moved little by little over months, as far as to be told
 * @param weights of earlier rounds, oldest first: all of the last {@value EarlierWeight#DAYS_OF_RISE} days, those of the same day too, and the newest before them if it is no older than {@value EarlierWeight#OLDEST_DAYS} days
 * @param usualRate what a breathing rate that is counted awake is held against; null where too few days are known
 * @param usualFlow the flow of oxygen of earlier days, which a flow is held against; null where none is known
 */
public record EarlierDays(
        @Nullable UsualSpo2 usualInAir,
        @Nullable UsualSpo2 usualOnOxygen,
        @Nullable UsualSpo2 usualNotSaid,
        boolean withoutOxygen,
        List<SlowChange> slowChanges,
        List<EarlierWeight> weights,
        @Nullable UsualRate usualRate,
        @Nullable UsualFlow usualFlow) {
    /** Nothing is known of earlier days. */
    public static final EarlierDays NONE = new EarlierDays(null, null, null, false, List.of());

    /** The same where nobody was weighed, no rate counted and no flow of oxygen written down. */
    public EarlierDays(
            @Nullable UsualSpo2 usualInAir,
            @Nullable UsualSpo2 usualOnOxygen,
            @Nullable UsualSpo2 usualNotSaid,
            boolean withoutOxygen,
            List<SlowChange> slowChanges) {
        this(usualInAir, usualOnOxygen, usualNotSaid, withoutOxygen, slowChanges, List.of(), null, null);
    }

    /** Only a usual is known, however it was measured. */
    public static EarlierDays of(@Nullable UsualSpo2 usual) {
        return usual == null ? NONE : new EarlierDays(usual, usual, usual, false, List.of());
    }

    public EarlierDays {
        slowChanges = List.copyOf(slowChanges);
        weights = List.copyOf(weights);
    }

    /** The same with the weights of earlier rounds, oldest first. */
    public EarlierDays withWeights(List<EarlierWeight> value) {
        return new EarlierDays(
                usualInAir, usualOnOxygen, usualNotSaid, withoutOxygen, slowChanges, value, usualRate, usualFlow);
    }

    /** The same with this person's own usual breathing rate, or null where it is not known. */
    public EarlierDays withUsualRate(@Nullable UsualRate value) {
        return new EarlierDays(
                usualInAir, usualOnOxygen, usualNotSaid, withoutOxygen, slowChanges, weights, value, usualFlow);
    }

    /** The same with the flow of oxygen of earlier days, or null where it is not known. */
    public EarlierDays withUsualFlow(@Nullable UsualFlow value) {
        return new EarlierDays(
                usualInAir, usualOnOxygen, usualNotSaid, withoutOxygen, slowChanges, weights, usualRate, value);
    }

    /** The lowest weight of the last days that the weight is held against, without those that can hardly be beside it; null where there is none. */
    public @Nullable EarlierWeight weightBefore(Vitals vitals, Age age) {
        return Weighing.lowest(vitals.weightKg(), this, age);
    }

    /** What a value is held against; null where too few days are known. */
    public @Nullable UsualSpo2 usualSpo2(Vitals vitals) {
        Boolean onOxygen = vitals.onOxygen();
        if (onOxygen == null) {
            return usualNotSaid;
        }
        return onOxygen ? usualOnOxygen : usualInAir;
    }
}
