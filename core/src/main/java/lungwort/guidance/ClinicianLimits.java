package lungwort.guidance;

import java.time.LocalDate;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/**
 * Limits that a clinician set for this person; they replace the general ones for the same vital sign. Danger signs cannot be replaced.
 *
 * @param spo2Below at or below which SpO2 (in %) the person is to be seen today, and is an emergency; null keeps the general limits
 * @param respiratoryRateAbove at or above which breathing rate (a minute); null keeps the general limits
 * @param pulseAbove at or above which pulse (a minute); null keeps the general limits
 * @param spo2Scale2 true only where a clinician said that SpO2 scale 2 (target 88-92 %) applies: risk of hypercapnic respiratory failure
 * @param bestPeakFlowLitresPerMinute this person's best peak flow; null where unknown
 * @param usualSpo2 what a clinician called this person's usual SpO2, with who did so and when: it need not be who set the limits; null where none did
 * @param setBy who set the limits, for the record
 * @param setOn when, as written (for example 2026-03-14)
 */
public record ClinicianLimits(
        @Nullable Limit spo2Below,
        @Nullable Limit respiratoryRateAbove,
        @Nullable Limit pulseAbove,
        boolean spo2Scale2,
        @Nullable Integer bestPeakFlowLitresPerMinute,
        @Nullable StatedUsual usualSpo2,
        String setBy,
        String setOn) {
    /** The general limits apply. */
    public static final ClinicianLimits NONE = new ClinicianLimits(null, null, null, false, null, null, "", "");

    /**
     * A pair of limits: both are needed, so that no gap is left where nothing would be said.
     *
     * @param seenToday reached: be seen today
     * @param emergency reached: emergency
     */
    public record Limit(int seenToday, int emergency) {}

    /**
     * A usual that a clinician stated. Common practice: a chest that has changed for good gets a new usual from whoever has examined it, never from days of illness alone.
     *
     * @param percent SpO2 in %
     * @param on from which day it counts; what was measured until then makes no usual any more
     * @param onOxygen true if it was stated for values on extra oxygen, false for values in air; null where that was not said: then it counts for both
     * @param setBy who stated it
     * @param setOn when, as written (for example 2026-03-14); empty where that is not known
     */
    public record StatedUsual(
            int percent, LocalDate on, @Nullable Boolean onOxygen, String setBy, String setOn) {
        /** @throws BadInput if it is out of range, or nobody is named who stated it */
        public StatedUsual {
            Vital.SPO2.check(percent);
            if (setBy.isBlank()) {
                throw new BadInput(
                        "usual SpO2: the name of the clinician who stated it is missing; only a clinician's word may replace what earlier days say.");
            }
        }

        /** As a phrase: "usual SpO2 93 % on oxygen from 2026-03-14 on". */
        public String words() {
            String how = Vitals.howMeasured(onOxygen);
            return "usual SpO2 %d %%%s from %s on".formatted(percent, how.isEmpty() ? "" : " " + how, on);
        }

        /** True from its day on. */
        public boolean countsOn(LocalDate day) {
            return !day.isBefore(on);
        }

        /** True if it was stated for values measured so, and for no others. */
        public boolean onlyFor(boolean oxygen) {
            return onOxygen != null && onOxygen == oxygen;
        }

        /** True if it counts for values measured so; for those of which nobody said how (null) only where it counts for all. */
        public boolean countsFor(@Nullable Boolean oxygen) {
            return onOxygen == null || onOxygen.equals(oxygen);
        }
    }

    /** The same without a stated usual. */
    public ClinicianLimits(
            @Nullable Limit spo2Below,
            @Nullable Limit respiratoryRateAbove,
            @Nullable Limit pulseAbove,
            boolean spo2Scale2,
            @Nullable Integer bestPeakFlowLitresPerMinute,
            String setBy,
            String setOn) {
        this(spo2Below, respiratoryRateAbove, pulseAbove, spo2Scale2, bestPeakFlowLitresPerMinute, null, setBy, setOn);
    }

    /** @throws BadInput if a limit is out of range, in the wrong order, or nobody is named who set it */
    public ClinicianLimits {
        check(Vital.SPO2, spo2Below, true);
        check(Vital.RESPIRATORY_RATE, respiratoryRateAbove, false);
        check(Vital.PULSE, pulseAbove, false);
        Vital.PEAK_FLOW.check(bestPeakFlowLitresPerMinute);
        boolean any = spo2Below != null || respiratoryRateAbove != null || pulseAbove != null || spo2Scale2;
        if (any && setBy.isBlank()) {
            throw new BadInput(
                    "limits of a clinician: the name of who set them is missing; only limits set by a clinician may replace the general ones.");
        }
    }

    public ClinicianLimits withUsualSpo2(@Nullable StatedUsual value) {
        return new ClinicianLimits(
                spo2Below,
                respiratoryRateAbove,
                pulseAbove,
                spo2Scale2,
                bestPeakFlowLitresPerMinute,
                value,
                setBy,
                setOn);
    }

    private static void check(Vital vital, @Nullable Limit limit, boolean lowIsBad) {
        if (limit == null) {
            return;
        }
        vital.check(limit.seenToday());
        vital.check(limit.emergency());
        boolean ordered = lowIsBad ? limit.emergency() <= limit.seenToday() : limit.emergency() >= limit.seenToday();
        if (!ordered) {
            throw BadInput.of(
                    "limits of a clinician, %s: the emergency limit %d must not be milder than the be-seen-today limit %d; swap them.",
                    vital.words(), limit.emergency(), limit.seenToday());
        }
    }
}
