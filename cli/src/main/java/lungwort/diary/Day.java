package lungwort.diary;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * One day of a trend. A value is null where nothing was measured on that day: a gap, never a zero, as little as for a sound that is suggested and not measured.
 *
 * @param day the day, in local time
 * @param rounds number of rounds that began on it
 * @param wheezeShare mean share of the breath that continuous sounds fill, over the sites, first judged take each; in [0, 1]
 * @param cracklesPerBreath mean number of crackles a breath, over the same takes
 * @param ratePerMinute highest breathing rate of its rounds, a minute: counted, or heard where none was counted
 * @param rateHeard true if that rate was heard in a recording and not counted
 * @param spo2Percent lowest SpO2 of its rounds, in %
 * @param spo2OnOxygen true if that was measured on extra oxygen, false if in air; null where nobody said or none was measured
 * @param peakFlowLitresPerMinute lowest peak flow of its rounds (each the best of three blows), in litres a minute
 * @param weightKg highest weight of its rounds, in kg
 * @param oxygenLitresPerMinute highest flow of oxygen of its rounds, in litres a minute
 * @param spo2LitresPerMinute flow at which that lowest SpO2 was measured, in litres a minute; null where it is not known or there was none
 * @param wheezePlaces over how many places the wheeze share is a mean; 0 without one
 * @param cracklePlaces the same of the crackles
 * @param askedForClinician true if a round of it did ({@link OxygenDays#askedForClinician})
 */
public record Day(
        LocalDate day,
        int rounds,
        @Nullable Double wheezeShare,
        @Nullable Double cracklesPerBreath,
        @Nullable Double ratePerMinute,
        boolean rateHeard,
        @Nullable Integer spo2Percent,
        @Nullable Boolean spo2OnOxygen,
        @Nullable Integer peakFlowLitresPerMinute,
        @Nullable Double weightKg,
        @Nullable Double oxygenLitresPerMinute,
        @Nullable Double spo2LitresPerMinute,
        int wheezePlaces,
        int cracklePlaces,
        boolean askedForClinician) {}
