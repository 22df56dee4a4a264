package lungwort.diary;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.stream.Stream;
import lungwort.diary.OwnUsual.Value;
import lungwort.diary.Trend.Usual;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.RateSource;
import lungwort.guidance.SlowChange;
import lungwort.guidance.UsualSpo2;
import lungwort.guidance.Vital;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * Goes through a person's days in their order: what was usual before each, and which of them asked for a clinician. Each needs the other, because a round that nobody finished is judged by the usual
 * before it.
 *
 * <p>Values in air and on extra oxygen each make their own usual ({@link DaysOfOneKind}), and all of them together one more. A value in air is held against the higher of its own and that of all, a
 * value on oxygen against the highest of its own, that in air and that of all, since oxygen only lifts the number; one of which nobody said how it was measured, against the highest of the three. So no
 * kind of value hides a fall of the other. Where a clinician stated a usual for values in air alone, or on oxygen alone, these are held against nothing else. Common practice.
 *
 * <p>A day that asked for a clinician by a risen weight alone makes a usual as it would have without a scale, so that no usual is another, and no step milder, because somebody weighs; where such days
 * are among those of a usual, it is said that some of them asked.
 *
 * <p>To breathe extra oxygen is new for whoever was measured without it on {@link OwnUsual#FEWEST_DAYS} days or more of the last year, until a clinician has stated a usual on oxygen, or as many days on
 * oxygen have asked for no clinician, as those before that. A value of which nobody said how it was measured counts as one without: of the two the reading that tells the change. Common practice.
 */
public final class OxygenDays {
    private final Person person;
    private final @Nullable StatedUsual stated;
    private final Set<LocalDate> unwell = new HashSet<>();
    private final DaysOfOneKind all;
    private final DaysOfOneKind inAir;
    private final DaysOfOneKind onOxygen;
    private final LongComparison withoutOverYear;
    private final LongComparison onOxygenOverYear;
    private final LongComparison rateOverYear;
    private final List<LocalDate> without = new ArrayList<>();
    private final List<LocalDate> wellOnOxygen = new ArrayList<>();
    private final Map<LocalDate, EarlierDays> before = new HashMap<>();
    private final WeightsBefore weights;
    private final FlowsBefore flows;

    private OxygenDays(Person person, List<Round> rounds) {
        this.person = person;
        this.stated = person.limits().usualSpo2();
        this.all = new DaysOfOneKind(null, stated);
        this.inAir = new DaysOfOneKind(false, stated);
        this.onOxygen = new DaysOfOneKind(true, stated);
        this.withoutOverYear = new LongComparison(Vital.SPO2, false, stated);
        this.onOxygenOverYear = new LongComparison(Vital.SPO2, true, stated);
        this.rateOverYear = new LongComparison(Vital.RESPIRATORY_RATE, false, stated);
        this.flows = new FlowsBefore(stated);
        this.weights = new WeightsBefore(rounds);
    }

    /**
     * All days.
     *
     * @param rounds of the person, in any order
     */
    public static OxygenDays of(Person person, List<Round> rounds) {
        return before(LocalDate.MAX, person, rounds);
    }

    /** The days before a day; rounds of later days are passed over, but for the weights of the same day. */
    public static OxygenDays before(LocalDate day, Person person, List<Round> rounds) {
        TreeMap<LocalDate, List<Round>> byDay = new TreeMap<>();
        rounds.forEach(
                r -> byDay.computeIfAbsent(r.day(), d -> new ArrayList<>()).add(r));
        OxygenDays days = new OxygenDays(person, rounds);
        byDay.headMap(day).forEach(days::add);
        return days;
    }

    /** Those that asked for a clinician. */
    public Set<LocalDate> askedForClinician() {
        return Set.copyOf(unwell);
    }

    /** What these days say of a day after all of them. A usual is the middle of the lowest of each earlier day, rounded down, or what a clinician stated; of the rate, that of the fastest counts. */
    public EarlierDays earlier(LocalDate day) {
        return new EarlierDays(
                        usual(day, false), usual(day, true), usual(day, null), withoutOxygen(day), slowChanges(day))
                .withUsualRate(rateOverYear.rate(day))
                .withUsualFlow(flows.told(day));
    }

    /** The same of a round of that day, with the weights of rounds before it. */
    public EarlierDays earlier(Round round) {
        return earlier(round.day()).withWeights(weights.of(round));
    }

    /** The same of a round of one of these days, of those before it: for lists of many rounds, so that the days are gone through once. */
    public EarlierDays earlierOn(Round ofThese) {
        return before.getOrDefault(ofThese.day(), EarlierDays.NONE).withWeights(weights.of(ofThese));
    }

    private @Nullable UsualSpo2 usual(LocalDate day, @Nullable Boolean how) {
        List<UsualSpo2> told = heldAgainst(day, how)
                .map(days -> days.told(day))
                .filter(Objects::nonNull)
                .toList();
        UsualSpo2 highest = first(told, Comparator.comparingInt(UsualSpo2::percent));
        UsualSpo2 own = how == null ? null : (how ? onOxygen : inAir).told(day);
        // Whoever alternates sees both.
        return highest == null || own == null || own.percent() == highest.percent()
                ? highest
                : new UsualSpo2(
                        highest.percent(),
                        "%s; of days %s alone it is %d %%"
                                .formatted(highest.of(), Vitals.howMeasured(how), own.percent()));
    }

    /**
     * The days that a value is held against, without what a clinician stated; null where too few have a value.
     *
     * @param how true for a value on oxygen, false for one in air, null where nobody said
     */
    @Nullable
    Usual ofDays(LocalDate day, @Nullable Boolean how) {
        return first(
                heldAgainst(day, how)
                        .map(days -> days.ofDays(day))
                        .filter(Objects::nonNull)
                        .toList(),
                Comparator.comparingDouble(Usual::median));
    }

    /** The greatest, of equal ones the first. */
    private static <T> @Nullable T first(List<T> values, Comparator<T> order) {
        T greatest = null;
        for (T value : values) {
            greatest = greatest == null || order.compare(value, greatest) > 0 ? value : greatest;
        }
        return greatest;
    }

    private Stream<DaysOfOneKind> heldAgainst(LocalDate day, @Nullable Boolean how) {
        if (how == null) {
            return Stream.of(all, inAir, onOxygen);
        }
        if (stated != null && stated.onlyFor(how) && stated.countsOn(day)) {
            return Stream.of(how ? onOxygen : inAir);
        }
        return how ? Stream.of(onOxygen, inAir, all) : Stream.of(inAir, all);
    }

    private List<SlowChange> slowChanges(LocalDate day) {
        return Stream.of(withoutOverYear, onOxygenOverYear, rateOverYear)
                .map(days -> days.told(day))
                .filter(Objects::nonNull)
                .toList();
    }

    private boolean withoutOxygen(LocalDate day) {
        boolean accepted = stated != null && stated.onlyFor(true) && stated.countsOn(day);
        return !accepted && enough(without, day) && !enough(wellOnOxygen, day);
    }

    private static boolean enough(List<LocalDate> days, LocalDate day) {
        LocalDate oldest = day.minusDays(OwnUsual.OLDEST_DAYS);
        return days.stream().filter(d -> !d.isBefore(oldest)).count() >= OwnUsual.FEWEST_DAYS;
    }

    /** Those values of all kinds that make a usual on that day. */
    List<Value> counting(List<Value> values, LocalDate day) {
        return all.counting(values, day);
    }

    /** True if a day after all of these asked for a clinician. */
    boolean asked(LocalDate day, List<Round> rounds) {
        return asked(rounds, earlier(day));
    }

    private boolean asked(List<Round> rounds, EarlierDays earlier) {
        return rounds.stream().anyMatch(r -> r.askedForClinician(person, earlier.withWeights(weights.of(r))));
    }

    private void add(LocalDate day, List<Round> rounds) {
        Stream.of(all, inAir, onOxygen).forEach(days -> days.begin(day));
        EarlierDays earlier = earlier(day);
        before.put(day, earlier);
        boolean asked = rounds.stream().anyMatch(r -> r.askedBesideWeight(person, earlier));
        boolean byWeight = !asked && asked(rounds, earlier);
        if (asked || byWeight) {
            unwell.add(day);
        }
        List<Vitals> vitals = rounds.stream().map(Round::vitals).toList();
        Predicate<Vitals> oxygen = v -> Objects.equals(v.onOxygen(), true);
        measured(all::measured, day, asked, byWeight, vitals, v -> true);
        measured(inAir::measured, day, asked, byWeight, vitals, v -> Objects.equals(v.onOxygen(), false));
        measured(onOxygen::measured, day, asked, byWeight, vitals, oxygen);
        measured(withoutOverYear::measured, day, asked, byWeight, vitals, oxygen.negate());
        measured(onOxygenOverYear::measured, day, asked, byWeight, vitals, oxygen);
        fastest(vitals).ifPresent(rate -> rateOverYear.measured(new Value(day, rate, asked, byWeight, null)));
        flows.measured(day, asked, vitals, earlier.usualFlow());
        if (vitals.stream().anyMatch(OxygenDays::withoutOxygen)) {
            without.add(day);
        }
        if (!asked && vitals.stream().anyMatch(oxygen)) {
            wellOnOxygen.add(day);
        }
    }

    private static boolean withoutOxygen(Vitals vitals) {
        Boolean oxygen = vitals.onOxygen();
        return oxygen == null ? vitals.spo2Percent() != null : !oxygen;
    }

    private static void measured(
            Consumer<Value> days,
            LocalDate day,
            boolean asked,
            boolean byWeight,
            List<Vitals> vitals,
            Predicate<Vitals> kind) {
        Vitals lowest = lowest(vitals.stream().filter(kind).toList());
        if (lowest != null) {
            days.accept(
                    new Value(day, Objects.requireNonNull(lowest.spo2Percent()), asked, byWeight, lowest.onOxygen()));
        }
    }

    /** The highest rate that was counted awake: one that was heard may be twice or half the true one, and asleep is slower. */
    private static OptionalInt fastest(List<Vitals> vitals) {
        return vitals.stream()
                .filter(v -> v.rateSource() != RateSource.HEARD && !Objects.equals(v.asleep(), true))
                .map(Vitals::respiratoryRatePerMinute)
                .filter(Objects::nonNull)
                .mapToInt(Integer::intValue)
                .max();
    }

    /** Those with the lowest SpO2: of equal ones that on oxygen, which says more; null where none was measured. */
    static @Nullable Vitals lowest(List<Vitals> vitals) {
        return vitals.stream()
                .filter(v -> v.spo2Percent() != null)
                .min(Comparator.comparing((Vitals v) -> Objects.requireNonNull(v.spo2Percent()))
                        .thenComparing(v -> !Objects.equals(v.onOxygen(), true)))
                .orElse(null);
    }
}
