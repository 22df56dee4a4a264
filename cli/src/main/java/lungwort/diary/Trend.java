package lungwort.diary;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.guidance.Site;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * How a person's numbers went from day to day.
 *
 * @param first first day
 * @param last last day, included
 * @param days every day between them, also those without a round
 */
public record Trend(LocalDate first, LocalDate last, List<Day> days) {
    /** Longest span, in days. */
    public static final int MAX_DAYS = 3_700;

    /** Fewest earlier days with a value from which a usual is made. Common practice. */
    public static final int MIN_DAYS_OF_USUAL = 3;

    /** What is followed. */
    public enum Measure {
        WHEEZE_SHARE("wheeze-share", "wheeze share", "% of the breath"),
        CRACKLES_PER_BREATH("crackles-per-breath", "crackles a breath", "crackles"),
        RATE("rate", "breathing rate", "breaths a minute"),
        SPO2("spo2", "SpO2", "%"),
        PEAK_FLOW("peak-flow", "peak flow", "litres a minute");

        private final String id;
        private final String words;
        private final String unit;

        Measure(String id, String words, String unit) {
            this.id = id;
            this.words = words;
            this.unit = unit;
        }

        /** Name in files, for example {@code wheeze-share}. */
        public String id() {
            return id;
        }

        /** Name for people. */
        public String words() {
            return words;
        }

        /** Unit for people. */
        public String unit() {
            return unit;
        }

        /** The value of a day in this unit (wheeze share in %), or null in a gap. */
        public @Nullable Double of(Day day) {
            Double share = day.wheezeShare();
            Integer spo2 = day.spo2Percent();
            Integer flow = day.peakFlowLitresPerMinute();
            return switch (this) {
                case WHEEZE_SHARE -> share == null ? null : (Double) (100 * share);
                case CRACKLES_PER_BREATH -> day.cracklesPerBreath();
                case RATE -> day.ratePerMinute();
                case SPO2 -> spo2 == null ? null : Double.valueOf(spo2);
                case PEAK_FLOW -> flow == null ? null : Double.valueOf(flow);
            };
        }
    }

    /**
     * What is usual for this person.
     *
     * @param median middle of the earlier days
     * @param lowest lowest of them
     * @param highest highest of them
     * @param days how many there are
     * @param ofWellDays true if none of them asked for a clinician
     */
    public record Usual(double median, double lowest, double highest, int days, boolean ofWellDays) {
        /**
         * Of days that asked for no clinician where there are enough, so that an illness that grows slowly is not taken for usual; else of all. Of all, too, where that makes a higher usual of an SpO2: of two usuals
         * the one from which a fall shows sooner.
         *
         * @param well values of the days that asked for no clinician
         * @param all values of all days, those included
         * @return null where there are too few
         */
        public static @Nullable Usual of(Measure measure, List<Double> well, List<Double> all) {
            if (all.size() < MIN_DAYS_OF_USUAL) {
                return null;
            }
            Usual ofAll = of(all, well.size() == all.size());
            if (well.size() < MIN_DAYS_OF_USUAL) {
                return ofAll;
            }
            Usual ofWell = of(well, true);
            return measure == Measure.SPO2 && ofAll.median() > ofWell.median() ? ofAll : ofWell;
        }

        private static Usual of(List<Double> values, boolean ofWellDays) {
            return new Usual(
                    Measures.median(values).orElseThrow(),
                    values.stream().min(Double::compare).orElseThrow(),
                    values.stream().max(Double::compare).orElseThrow(),
                    values.size(),
                    ofWellDays);
        }

        /** How many days, and, where it matters, that ill ones are among them. */
        public String daysWords() {
            return ofWellDays ? days + " days" : days + " days, some of which asked for a clinician";
        }
    }

    public Trend {
        days = List.copyOf(days);
    }

    /**
     * The trend of a person.
     *
     * @throws BadInput if the span is backwards or longer than {@value #MAX_DAYS} days
     */
    public static Trend of(Diary diary, UUID personId, LocalDate first, LocalDate last) {
        long length = java.time.temporal.ChronoUnit.DAYS.between(first, last) + 1;
        if (length < 1 || length > MAX_DAYS) {
            throw new BadInput("The days from %s to %s are %d; choose 1 to %d days, the first before the last."
                    .formatted(first, last, length, MAX_DAYS));
        }
        Map<LocalDate, List<Round>> rounds = new TreeMap<>();
        for (Round round : diary.rounds().ofPerson(personId, first, last)) {
            rounds.computeIfAbsent(round.day(), d -> new ArrayList<>()).add(round);
        }
        Map<UUID, List<Measures>> sounds = sounds(diary, personId, rounds.values());
        List<Day> days = new ArrayList<>();
        for (LocalDate day = first; !day.isAfter(last); day = day.plusDays(1)) {
            days.add(day(day, rounds.getOrDefault(day, List.of()), sounds));
        }
        return new Trend(first, last, days);
    }

    /** What is shown: the peak flow only of whoever has blown into a meter in these days, everything else always, so that a gap is seen. */
    public List<Measure> measures() {
        boolean blown = days.stream().anyMatch(day -> day.peakFlowLitresPerMinute() != null);
        return Stream.of(Measure.values())
                .filter(measure -> measure != Measure.PEAK_FLOW || blown)
                .toList();
    }

    /** What was usual on the days before the newest that has a round ({@link Usual#of}), or null where too few have a value: the newest is what is held against it. */
    public @Nullable Usual usual(Measure measure) {
        return Usual.of(
                measure, values(measure, before().filter(d -> !d.askedForClinician())), values(measure, before()));
    }

    /** The same of all those days; null where too few have a value. */
    public @Nullable Usual usualOfAll(Measure measure) {
        List<Double> all = values(measure, before());
        boolean well = before().noneMatch(d -> measure.of(d) != null && d.askedForClinician());
        return all.size() < MIN_DAYS_OF_USUAL ? null : Usual.of(all, well);
    }

    private Stream<Day> before() {
        LocalDate newest = days.stream()
                .filter(d -> d.rounds() > 0)
                .map(Day::day)
                .max(LocalDate::compareTo)
                .orElse(last);
        return days.stream().filter(d -> d.day().isBefore(newest));
    }

    private static List<Double> values(Measure measure, Stream<Day> days) {
        return days.map(measure::of).filter(java.util.Objects::nonNull).toList();
    }

    private static Day day(LocalDate day, List<Round> rounds, Map<UUID, List<Measures>> soundsOfRounds) {
        List<Measures> sounds = new ArrayList<>();
        List<Double> heard = new ArrayList<>();
        List<Double> counted = new ArrayList<>();
        List<Integer> spo2 = new ArrayList<>();
        List<Integer> flow = new ArrayList<>();
        for (Round round : rounds) {
            List<Measures> ofRound = soundsOfRounds.getOrDefault(round.id(), List.of());
            sounds.addAll(ofRound);
            add(heard, Measures.median(values(ofRound, Measures::ratePerMinute)));
            Vitals vitals = round.vitals();
            addNumber(counted, vitals.respiratoryRatePerMinute());
            add(spo2, vitals.spo2Percent());
            add(flow, vitals.peakFlowLitresPerMinute());
        }
        boolean rateHeard = counted.isEmpty() && !heard.isEmpty();
        return new Day(
                day,
                rounds.size(),
                orNull(values(sounds, Measures::wheezeShare).stream()
                        .mapToDouble(v -> v)
                        .average()),
                orNull(values(sounds, Measures::cracklesPerBreath).stream()
                        .mapToDouble(v -> v)
                        .average()),
                orNull((rateHeard ? heard : counted)
                        .stream().mapToDouble(v -> v).max()),
                rateHeard,
                lowest(spo2),
                lowest(flow),
                rounds.stream().anyMatch(Round::askedForClinician));
    }

    private static @Nullable Integer lowest(List<Integer> values) {
        return values.isEmpty() ? null : Collections.min(values);
    }

    private static void add(List<Integer> values, @Nullable Integer value) {
        if (value != null) {
            values.add(value);
        }
    }

    /** By round, the measures of the first judged take at each site: takes after a cough or deep breaths answer another question. */
    private static Map<UUID, List<Measures>> sounds(Diary diary, UUID personId, Collection<List<Round>> rounds) {
        List<Instant> starts = rounds.stream()
                .flatMap(List::stream)
                .map(r -> r.startedAt().toInstant())
                .sorted()
                .toList();
        if (starts.isEmpty()) {
            return Map.of();
        }
        Map<UUID, Map<Site, Measures>> firsts = new HashMap<>();
        for (Measured take : diary.takes().measured(personId, starts.get(0), starts.get(starts.size() - 1))) {
            firsts.computeIfAbsent(take.roundId(), r -> new LinkedHashMap<>())
                    .putIfAbsent(take.site(), take.measures());
        }
        Map<UUID, List<Measures>> sounds = new HashMap<>();
        firsts.forEach((round, bySite) -> sounds.put(round, List.copyOf(bySite.values())));
        return sounds;
    }

    private static List<Double> values(List<Measures> measures, Function<Measures, @Nullable Double> value) {
        List<Double> values = new ArrayList<>();
        for (Measures m : measures) {
            Double v = value.apply(m);
            if (v != null) {
                values.add(v);
            }
        }
        return values;
    }

    private static void add(List<Double> values, OptionalDouble value) {
        value.ifPresent(values::add);
    }

    private static void addNumber(List<Double> values, @Nullable Integer value) {
        if (value != null) {
            values.add(Double.valueOf(value));
        }
    }

    private static @Nullable Double orNull(OptionalDouble value) {
        return value.isPresent() ? (Double) value.getAsDouble() : null;
    }
}
