package lungwort.diary;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import lungwort.diary.Trend.Measure;
import lungwort.diary.Trend.Usual;
import org.jspecify.annotations.Nullable;

/** Which earlier days make what is usual for a person. Common practice, every number of it. */
final class OwnUsual {
    /** Days before a day that are the last ones. */
    static final int RECENT_DAYS = 28;

    /** So many of the newest days that asked for no clinician make a usual where fewer than three lie among the last ones. */
    static final int MOST_WELL_DAYS = 28;

    /** Older days, counted from the day that is held against them, make no usual. */
    static final int OLDEST_DAYS = 365;

    /** Fewer days with a value make no usual. */
    static final int FEWEST_DAYS = 3;

    private OwnUsual() {}

    /**
     * The value of a day.
     *
     * @param askedForClinician true if a round of it did, but for a risen weight alone
     * @param askedByWeightAlone true if a round of it did for a risen weight and nothing else
     * @param onOxygen of SpO2: true if it was measured on extra oxygen, false if in air; null where nobody said, and of other measures
     */
    record Value(
            LocalDate day,
            double value,
            boolean askedForClinician,
            boolean askedByWeightAlone,
            @Nullable Boolean onOxygen) {
        Value(LocalDate day, double value, boolean askedForClinician, @Nullable Boolean onOxygen) {
            this(day, value, askedForClinician, false, onOxygen);
        }

        Value(LocalDate day, double value, boolean askedForClinician) {
            this(day, value, askedForClinician, null);
        }
    }

    /**
     * Of those of the last days that asked for no clinician, so that an illness is not taken for usual; where they are too few, of the newest such days however long the illness has lasted, up to a
     * year; where they too are too few, of all last days. The highest of the three for SpO2, and the lowest for the flow of oxygen: of several usuals the one from which a fall, or a rise, shows sooner.
     *
     * @param earlier values of days before it, oldest first
     * @return null where too few are known
     */
    static @Nullable Usual of(Measure measure, List<Value> earlier, LocalDate day) {
        List<Value> known = since(earlier, day.minusDays(OLDEST_DAYS));
        List<Value> recent = since(known, day.minusDays(RECENT_DAYS));
        List<Value> well = well(known);
        Stream<Usual> usuals = Stream.of(
                        well(recent), well.subList(Math.max(0, well.size() - MOST_WELL_DAYS), well.size()), recent)
                .filter(values -> values.size() >= FEWEST_DAYS)
                .map(OwnUsual::of);
        Comparator<Usual> byMedian = Comparator.comparingDouble(Usual::median);
        Optional<Usual> usual = measure == Measure.SPO2
                ? usuals.max(byMedian)
                : measure == Measure.OXYGEN_FLOW ? usuals.min(byMedian) : usuals.findFirst();
        return usual.orElse(null);
    }

    /** The same of all last days, whatever they asked for. */
    static @Nullable Usual ofRecentDays(List<Value> earlier, LocalDate day) {
        List<Value> recent = since(earlier, day.minusDays(RECENT_DAYS));
        return recent.size() < FEWEST_DAYS ? null : of(recent);
    }

    private static List<Value> since(List<Value> values, LocalDate first) {
        int from = values.size();
        while (from > 0 && !values.get(from - 1).day().isBefore(first)) {
            from--;
        }
        return values.subList(from, values.size());
    }

    private static List<Value> well(List<Value> values) {
        return values.stream().filter(v -> !v.askedForClinician()).toList();
    }

    private static String how(List<Value> values) {
        long oxygen =
                values.stream().filter(v -> Objects.equals(v.onOxygen(), true)).count();
        boolean air = values.stream().allMatch(v -> Objects.equals(v.onOxygen(), false));
        return oxygen == values.size() ? "on oxygen" : oxygen > 0 ? "some on oxygen" : air ? "in air" : "";
    }

    private static Usual of(List<Value> values) {
        List<Double> sorted = values.stream().map(Value::value).sorted().toList();
        return new Usual(
                Measures.median(sorted).orElseThrow(),
                sorted.get(0),
                sorted.get(sorted.size() - 1),
                sorted.size(),
                values.stream().noneMatch(v -> v.askedForClinician() || v.askedByWeightAlone()),
                how(values),
                values.get(0).day(),
                values.get(values.size() - 1).day());
    }
}
