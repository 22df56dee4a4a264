package lungwort.diary;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lungwort.diary.OwnUsual.Value;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.SlowChange;
import lungwort.guidance.UsualRate;
import lungwort.guidance.Vital;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * The usual of now against the best one of the last year. What moves by 1 % in two months stands out on no day, and a usual made of the last weeks follows it down.
 *
 * <p>Both are the middle of the days that asked for no clinician: of those of {@link OwnUsual#RECENT_DAYS} days, or of the newest {@link OwnUsual#FEWEST_DAYS} where fewer lie among them. Where a
 * clinician stated a usual, only days after its own count from then on: what falls as far below the one stated asks for a clinician on the day itself. Common practice.
 */
final class LongComparison {
    private static final DateTimeFormatter MONTH = DateTimeFormatter.ofPattern("MMMM yyyy", Locale.ENGLISH);

    private final Vital vital;
    private final boolean onOxygen;
    private final @Nullable StatedUsual stated;
    private final List<Value> well = new ArrayList<>();
    private final List<Middle> middles = new ArrayList<>();

    /** The middle of days, as it was known after the last of them. */
    private record Middle(double value, int days, LocalDate first, LocalDate last) {}

    /**
     * @param vital SpO2, of which the highest is the best, or the breathing rate, of which the lowest is
     * @param onOxygen of SpO2: true for values on extra oxygen, false for all others
     * @param stated what a clinician stated for this person
     */
    LongComparison(Vital vital, boolean onOxygen, @Nullable StatedUsual stated) {
        this.vital = vital;
        this.onOxygen = onOxygen;
        this.stated = vital == Vital.SPO2 && stated != null && stated.countsFor(onOxygen) ? stated : null;
    }

    /** The value of a day that is later than all so far; one that asked for a clinician is passed over. */
    void measured(Value value) {
        if (value.askedForClinician()) {
            return;
        }
        well.add(value);
        Middle middle = middle(value.day());
        if (middle != null) {
            middles.add(middle);
        }
    }

    /** The usual on a day after all of these, of days that asked for no clinician alone; null where too few are known. */
    @Nullable
    UsualRate rate(LocalDate day) {
        Middle now = middle(day);
        return now == null
                ? null
                : new UsualRate(
                        now.value(),
                        "of %d days from %s to %s, none of which asked for a clinician"
                                .formatted(now.days(), now.first(), now.last()));
    }

    /** What is known on a day after all of these; null where too few days are, or it has not moved as far as to be told. */
    @Nullable
    SlowChange told(LocalDate day) {
        Middle now = middle(day);
        if (now == null) {
            return null;
        }
        Middle best = null;
        for (Middle middle : middles) {
            boolean counts = !middle.first().isBefore(since(day));
            if (counts && (best == null || better(middle.value(), best.value()))) {
                best = middle;
            }
        }
        SlowChange change = best == null ? null : change(best, now);
        return change != null && change.counts() ? change : null;
    }

    private SlowChange change(Middle best, Middle now) {
        return new SlowChange(
                vital,
                onOxygen ? Vitals.howMeasured(true) : "",
                best.value(),
                months(best),
                now.value(),
                "%d days from %s to %s".formatted(now.days(), now.first(), now.last()));
    }

    private boolean better(double value, double other) {
        return vital == Vital.SPO2 ? value > other : value < other;
    }

    /** The oldest day that counts on a day. */
    private LocalDate since(LocalDate day) {
        LocalDate oldest = day.minusDays(OwnUsual.OLDEST_DAYS);
        if (stated == null || !stated.countsOn(day) || stated.on().isBefore(oldest)) {
            return oldest;
        }
        return stated.on().plusDays(1);
    }

    private @Nullable Middle middle(LocalDate day) {
        LocalDate oldest = since(day);
        LocalDate recent = day.minusDays(OwnUsual.RECENT_DAYS);
        int from = well.size();
        while (from > 0
                && !well.get(from - 1).day().isBefore(oldest)
                && (!well.get(from - 1).day().isBefore(recent) || well.size() - from < OwnUsual.FEWEST_DAYS)) {
            from--;
        }
        List<Value> days = well.subList(from, well.size());
        return days.size() < OwnUsual.FEWEST_DAYS
                ? null
                : new Middle(
                        Measures.median(days.stream().map(Value::value).toList())
                                .orElseThrow(),
                        days.size(),
                        days.get(0).day(),
                        days.get(days.size() - 1).day());
    }

    private static String months(Middle middle) {
        String first = MONTH.format(YearMonth.from(middle.first()));
        String last = MONTH.format(YearMonth.from(middle.last()));
        return first.equals(last) ? "in " + last : "from %s to %s".formatted(first, last);
    }
}
