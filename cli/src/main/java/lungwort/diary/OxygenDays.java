package lungwort.diary;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import lungwort.diary.OwnUsual.Value;
import lungwort.diary.Trend.Measure;
import lungwort.diary.Trend.Usual;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.UsualSpo2;
import org.jspecify.annotations.Nullable;

/**
 * Goes through a person's days in their order: what was usual before each, and which of them asked for a clinician. Each needs the other, because a round that nobody finished is judged by the usual
 * before it.
 *
 * <p>The usual SpO2 of a day is that of {@link OwnUsual#of}, and through an illness no lower than before: while day after day asks for a clinician it stays where it was, however long that lasts, until
 * a day asks for none, no round was made for a year, or a clinician states another. A usual that was stated counts from its day on; days measured until then make none any more, and days after it only
 * raise it. Common practice.
 */
public final class OxygenDays {
    private final Person person;
    private final @Nullable StatedUsual stated;
    private final Set<LocalDate> unwell = new HashSet<>();
    private final List<Value> known = new ArrayList<>();
    private final Map<LocalDate, UsualSpo2> usuals = new HashMap<>();
    private @Nullable LocalDate newest;
    private @Nullable Usual held;

    private OxygenDays(Person person) {
        this.person = person;
        this.stated = person.limits().usualSpo2();
    }

    /**
     * All days.
     *
     * @param rounds of the person, in any order
     */
    public static OxygenDays of(Person person, List<Round> rounds) {
        return before(LocalDate.MAX, person, rounds);
    }

    /** The days before a day; rounds of later days are passed over. */
    public static OxygenDays before(LocalDate day, Person person, List<Round> rounds) {
        TreeMap<LocalDate, List<Round>> byDay = new TreeMap<>();
        rounds.forEach(
                r -> byDay.computeIfAbsent(r.day(), d -> new ArrayList<>()).add(r));
        OxygenDays days = new OxygenDays(person);
        byDay.headMap(day).forEach(days::add);
        return days;
    }

    /** Those that asked for a clinician. */
    public Set<LocalDate> askedForClinician() {
        return Set.copyOf(unwell);
    }

    /** This person's own usual SpO2 on a day after all of these: the middle of the lowest of each earlier day, rounded down, or what a clinician stated; null where too few days have a value. */
    public @Nullable UsualSpo2 usual(LocalDate day) {
        return told(day, ofDays(day));
    }

    /** The same on one of these days, of those before it: for lists of many rounds, so that the days are gone through once. */
    public @Nullable UsualSpo2 usualOn(LocalDate oneOfThese) {
        return usuals.get(oneOfThese);
    }

    private @Nullable UsualSpo2 told(LocalDate day, @Nullable Usual ofDays) {
        boolean counts = stated != null && !day.isBefore(stated.on());
        if (stated != null && counts && (ofDays == null || ofDays.median() < stated.percent() + 1)) {
            return new UsualSpo2(stated.percent(), "stated by a clinician, from %s on".formatted(stated.on()));
        }
        return ofDays == null ? null : new UsualSpo2((int) ofDays.median(), "of " + ofDays.daysWords());
    }

    /** The same of days alone; null where too few have a value. */
    @Nullable
    Usual ofDays(LocalDate day) {
        boolean forgotten = newest != null && newest.isBefore(day.minusDays(OwnUsual.OLDEST_DAYS));
        Usual before = forgotten || held == null || replaced(held.last(), day) ? null : held;
        Usual now = OwnUsual.of(Measure.SPO2, counting(known, day), day);
        return now == null || before != null && before.median() >= now.median() ? before : now;
    }

    /** Those values that make a usual on that day. */
    List<Value> counting(List<Value> values, LocalDate day) {
        return stated == null
                ? values
                : values.stream().filter(v -> !replaced(v.day(), day)).toList();
    }

    /** True if what was measured on the first day makes no usual on the second, because a clinician stated one since. */
    private boolean replaced(LocalDate measured, LocalDate day) {
        return stated != null && !day.isBefore(stated.on()) && !measured.isAfter(stated.on());
    }

    /** True if a day after all of these asked for a clinician. */
    boolean asked(LocalDate day, List<Round> rounds) {
        return asked(rounds, usual(day));
    }

    private boolean asked(List<Round> rounds, @Nullable UsualSpo2 usual) {
        return rounds.stream().anyMatch(r -> r.askedForClinician(person, usual));
    }

    private void add(LocalDate day, List<Round> rounds) {
        held = ofDays(day);
        newest = day;
        UsualSpo2 usual = told(day, held);
        if (usual != null) {
            usuals.put(day, usual);
        }
        boolean asked = asked(rounds, usual);
        if (asked) {
            unwell.add(day);
        }
        rounds.stream()
                .map(r -> r.vitals().spo2Percent())
                .filter(Objects::nonNull)
                .min(Integer::compare)
                .ifPresent(lowest -> {
                    known.add(new Value(day, lowest, asked));
                    held = asked ? held : null;
                });
    }
}
