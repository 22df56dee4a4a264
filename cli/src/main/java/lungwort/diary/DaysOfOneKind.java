package lungwort.diary;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import lungwort.diary.OwnUsual.Value;
import lungwort.diary.Trend.Measure;
import lungwort.diary.Trend.Usual;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.UsualSpo2;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * The SpO2 of days in air, of days on extra oxygen, or of all, gone through in their order.
 *
 * <p>The usual of a day is that of {@link OwnUsual#of}, and through an illness no lower than before: while day after day asks for a clinician it stays where it was, however long that lasts, until a
 * day asks for none, nothing was measured for a year, or a clinician states another. A usual that was stated counts from its day on; days measured until then make none any more, and days after it only
 * raise it. Common practice.
 */
final class DaysOfOneKind {
    private final @Nullable Boolean onOxygen;
    private final @Nullable StatedUsual stated;
    private final List<Value> known = new ArrayList<>();
    private @Nullable LocalDate newest;
    private @Nullable Usual held;
    private @Nullable LocalDate askedFor;
    private @Nullable Usual answered;

    /**
     * @param onOxygen true for values on oxygen, false for values in air, null for all, also those of which nobody said
     * @param stated what a clinician stated for this person
     */
    DaysOfOneKind(@Nullable Boolean onOxygen, @Nullable StatedUsual stated) {
        this.onOxygen = onOxygen;
        this.stated = stated;
    }

    /** A day that is later than all so far, on which a round was made. */
    void begin(LocalDate day) {
        held = ofDays(day);
        // Nothing but the same is known of the same day until something is measured on it.
        if (onOxygen == null) {
            newest = day;
        }
    }

    /** The lowest value of that day; only after {@link #begin}. */
    void measured(Value value) {
        newest = value.day();
        askedFor = null;
        known.add(value);
        held = value.askedForClinician() ? held : null;
    }

    /** The usual on a day after all of these, or what a clinician stated; null where too few days have a value. */
    @Nullable
    UsualSpo2 told(LocalDate day) {
        Usual ofDays = ofDays(day);
        if (stated != null
                && stated.countsFor(onOxygen)
                && stated.countsOn(day)
                && (ofDays == null || ofDays.median() < stated.percent() + 1)) {
            String how = Vitals.howMeasured(stated.onOxygen());
            return new UsualSpo2(
                    stated.percent(),
                    "%sstated by a clinician, from %s on".formatted(how.isEmpty() ? "" : how + ", ", stated.on()));
        }
        return ofDays == null ? null : new UsualSpo2((int) ofDays.median(), "of " + ofDays.daysWords());
    }

    /** The same of days alone; null where too few have a value. */
    @Nullable
    Usual ofDays(LocalDate day) {
        if (!day.equals(askedFor)) {
            answered = worked(day);
            askedFor = day;
        }
        return answered;
    }

    private @Nullable Usual worked(LocalDate day) {
        boolean forgotten = newest != null && newest.isBefore(day.minusDays(OwnUsual.OLDEST_DAYS));
        Usual before = forgotten || held == null || heldReplaced(held, day) ? null : held;
        Usual now = OwnUsual.of(Measure.SPO2, counting(known, day), day);
        return now == null || before != null && before.median() >= now.median() ? before : now;
    }

    /** Those values that make a usual on that day. */
    List<Value> counting(List<Value> values, LocalDate day) {
        return stated == null
                ? values
                : values.stream()
                        .filter(v -> !(stated.countsFor(v.onOxygen()) && replaced(stated, v.day(), day)))
                        .toList();
    }

    private boolean heldReplaced(Usual usual, LocalDate day) {
        return stated != null
                && (onOxygen == null || stated.countsFor(onOxygen))
                && replaced(stated, usual.last(), day);
    }

    /** True if what was measured on the first day makes no usual on the second, because a clinician stated one since. */
    private static boolean replaced(StatedUsual stated, LocalDate measured, LocalDate day) {
        return stated.countsOn(day) && !measured.isAfter(stated.on());
    }
}
