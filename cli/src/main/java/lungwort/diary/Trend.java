package lungwort.diary;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.IntSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.Site;
import lungwort.guidance.SlowChange;
import lungwort.guidance.UsualFlow;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * How a person's numbers went from day to day.
 *
 * @param first first day
 * @param last last day, included
 * @param days every day between them, also those without a round
 * @param usuals what was usual before the newest day that has a round: that one is what is held against it; without those of which too few days are known
 * @param usualsOfLastDays the same of all of the last days before it, whatever they asked for
 * @param slowChanges usuals that moved little by little over the year before that day
 * @param usualFlow the flow of oxygen of earlier days, beside which the SpO2 of that day was measured; null where none is known
 */
public record Trend(
        LocalDate first,
        LocalDate last,
        List<Day> days,
        Map<Measure, Usual> usuals,
        Map<Measure, Usual> usualsOfLastDays,
        List<SlowChange> slowChanges,
        @Nullable UsualFlow usualFlow) {
    /** Longest span, in days. */
    public static final int MAX_DAYS = 3_700;

    /** Fewest earlier days with a value from which a usual is made. Common practice. */
    public static final int MIN_DAYS_OF_USUAL = OwnUsual.FEWEST_DAYS;

    /** How many days before a day are its last ones, of which a usual is made first. Common practice. */
    public static final int RECENT_DAYS = OwnUsual.RECENT_DAYS;

    private static final Set<Measure> ONLY_WHERE_KNOWN =
            EnumSet.of(Measure.OXYGEN_FLOW, Measure.PEAK_FLOW, Measure.WEIGHT);

    /** What is followed. */
    public enum Measure {
        WHEEZE_SHARE("wheeze-share", "wheeze share", "% of the breath"),
        CRACKLES_PER_BREATH("crackles-per-breath", "crackles a breath", "crackles"),
        RATE("rate", "breathing rate", "breaths a minute"),
        SPO2("spo2", "SpO2", "%"),
        OXYGEN_FLOW("oxygen-flow", "oxygen flow", "litres a minute"),
        PEAK_FLOW("peak-flow", "peak flow", "litres a minute"),
        WEIGHT("weight", "weight", "kg");

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
                case OXYGEN_FLOW -> day.oxygenLitresPerMinute();
                case PEAK_FLOW -> flow == null ? null : Double.valueOf(flow);
                case WEIGHT -> day.weightKg();
            };
        }

        /** Over how many places the value of a day is a mean; 0 where there is no value, and of what is no mean. */
        public int places(Day day) {
            return switch (this) {
                case WHEEZE_SHARE -> day.wheezePlaces();
                case CRACKLES_PER_BREATH -> day.cracklePlaces();
                default -> 0;
            };
        }

        /** False of the weight and of the flow of oxygen: within earlier ones they can rise day by day, and which one is right for a person only a clinician says. */
        public boolean hasUsual() {
            return this != WEIGHT && this != OXYGEN_FLOW;
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
     * @param how how SpO2 was measured on them, as words: "in air", "on oxygen", "some on oxygen"; empty where that was not said, and of other measures
     * @param first the oldest of them
     * @param last the newest of them
     */
    public record Usual(
            double median,
            double lowest,
            double highest,
            int days,
            boolean ofWellDays,
            String how,
            LocalDate first,
            LocalDate last) {
        /** The same where there is nothing to say of how. */
        public Usual(
                double median,
                double lowest,
                double highest,
                int days,
                boolean ofWellDays,
                LocalDate first,
                LocalDate last) {
            this(median, lowest, highest, days, ofWellDays, "", first, last);
        }

        private String counted() {
            String measured = how.startsWith("some") ? ", %s,".formatted(how) : how.isEmpty() ? "" : " " + how;
            return days + " days" + measured;
        }

        /** The same for a narrow place: how many, until when, and whether ill ones are among them. */
        public String daysBrief() {
            return "%s to %s%s".formatted(counted(), last, ofWellDays ? "" : ", some asked for a clinician");
        }

        /** Which days they are, and whether ill ones are among them: after a long illness they can lie far back. */
        public String daysWords() {
            return "%s from %s to %s, %s of which asked for a clinician"
                    .formatted(counted(), first, last, ofWellDays ? "none" : "some");
        }
    }

    public Trend {
        days = List.copyOf(days);
        usuals = Map.copyOf(usuals);
        usualsOfLastDays = Map.copyOf(usualsOfLastDays);
        slowChanges = List.copyOf(slowChanges);
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
        Person person = diary.persons().get(personId);
        List<Round> all = diary.rounds().ofPerson(personId, LocalDate.MIN, last);
        LocalDate newest = newest(all, first, last);
        return of(diary, personId, first, last, all, OxygenDays.before(newest, person, all), newest);
    }

    /**
     * The trend of one day with a round, where the days before it were gone through already.
     *
     * @param rounds all of the person; those of later days are passed over
     * @param before the days before that day
     */
    public static Trend ofDay(Diary diary, UUID personId, LocalDate day, List<Round> rounds, OxygenDays before) {
        List<Round> until = rounds.stream().filter(r -> !r.day().isAfter(day)).toList();
        return of(diary, personId, day, day, until, before, day);
    }

    private static Trend of(
            Diary diary,
            UUID personId,
            LocalDate first,
            LocalDate last,
            List<Round> all,
            OxygenDays oxygen,
            LocalDate newest) {
        LocalDate oldest = newest.minusDays(OwnUsual.OLDEST_DAYS);
        TreeMap<LocalDate, List<Round>> rounds = new TreeMap<>();
        for (Round round : all) {
            if (!round.day().isBefore(first) || !round.day().isBefore(oldest)) {
                rounds.computeIfAbsent(round.day(), d -> new ArrayList<>()).add(round);
            }
        }
        Map<UUID, List<Measured>> sounds = sounds(diary, personId, rounds.values());
        Set<LocalDate> unwell = oxygen.askedForClinician();
        TreeMap<LocalDate, Day> known = new TreeMap<>();
        rounds.forEach((day, ofDay) -> known.put(
                day, day(day, ofDay, sounds, day.equals(newest) ? oxygen.asked(day, ofDay) : unwell.contains(day))));
        List<Day> days = new ArrayList<>();
        for (LocalDate day = first; !day.isAfter(last); day = day.plusDays(1)) {
            Day found = known.get(day);
            days.add(found == null ? day(day, List.of(), sounds, false) : found);
        }
        Collection<Day> before = known.headMap(newest).values();
        Day held = known.get(newest);
        EarlierDays earlier = oxygen.earlier(newest);
        Boolean how = held == null ? null : held.spo2OnOxygen();
        return new Trend(
                first,
                last,
                days,
                each(measure -> usual(measure, before, oxygen, newest, how)),
                each(measure -> usualOfLastDays(measure, before, oxygen, newest)),
                earlier.slowChanges(),
                earlier.usualFlow());
    }

    private static LocalDate newest(List<Round> rounds, LocalDate first, LocalDate last) {
        return rounds.stream()
                .map(Round::day)
                .filter(day -> !day.isBefore(first))
                .max(LocalDate::compareTo)
                .orElse(last);
    }

    private static @Nullable Usual usual(
            Measure measure, Collection<Day> before, OxygenDays oxygen, LocalDate newest, @Nullable Boolean how) {
        return measure == Measure.SPO2
                ? oxygen.ofDays(newest, how)
                : OwnUsual.of(measure, values(measure, before), newest);
    }

    private static @Nullable Usual usualOfLastDays(
            Measure measure, Collection<Day> before, OxygenDays oxygen, LocalDate newest) {
        List<OwnUsual.Value> values = values(measure, before);
        return OwnUsual.ofRecentDays(measure == Measure.SPO2 ? oxygen.counting(values, newest) : values, newest);
    }

    /** Of each measure of which there is one. */
    private static Map<Measure, Usual> each(Function<Measure, @Nullable Usual> usualOf) {
        Map<Measure, Usual> usuals = new EnumMap<>(Measure.class);
        for (Measure measure : Measure.values()) {
            Usual usual = measure.hasUsual() ? usualOf.apply(measure) : null;
            if (usual != null) {
                usuals.put(measure, usual);
            }
        }
        return usuals;
    }

    /** What is shown: peak flow, weight and flow of oxygen only of whoever has blown into a meter, stood on a scale or had a flow written down in these days, everything else always, so that a gap is seen. */
    public List<Measure> measures() {
        return Stream.of(Measure.values())
                .filter(measure ->
                        !ONLY_WHERE_KNOWN.contains(measure) || days.stream().anyMatch(day -> measure.of(day) != null))
                .toList();
    }

    /** What is told of a measure that has no usual: its newest value in these days beside the lowest and the highest: "72.4 kg on 2026-03-28; ..". Told and never judged, however far they lie apart; empty with fewer than two. */
    public String toldWords(Measure measure) {
        List<Day> known = days.stream().filter(d -> measure.of(d) != null).toList();
        if (known.size() < 2) {
            return "";
        }
        Comparator<Day> byValue = Comparator.comparing(d -> Objects.requireNonNull(measure.of(d)));
        return String.format(
                Locale.ROOT,
                "%s; lowest %s, highest %s. Told here, not judged: show it to the clinician.",
                value(measure, known.get(known.size() - 1)),
                value(measure, Collections.min(known, byValue)),
                value(measure, Collections.max(known, byValue)));
    }

    private static String value(Measure measure, Day day) {
        return measure == Measure.WEIGHT
                ? String.format(Locale.ROOT, "%.1f kg on %s", measure.of(day), day.day())
                : "%s on %s".formatted(UsualFlow.litres(Objects.requireNonNull(measure.of(day))), day.day());
    }

    /** Said of means over other numbers of places, which cannot be held against one another; empty where every day has as many, or no mean is known. */
    public String placesWords() {
        List<String> parts = Stream.of(Measure.WHEEZE_SHARE, Measure.CRACKLES_PER_BREATH)
                .map(this::placesWords)
                .filter(words -> !words.isEmpty())
                .toList();
        return parts.isEmpty()
                ? ""
                : "Means are not over as many places on every day (%s): one over few places cannot be held against one over many."
                        .formatted(String.join(", ", parts));
    }

    private String placesWords(Measure measure) {
        IntSummaryStatistics places =
                days.stream().mapToInt(measure::places).filter(n -> n > 0).summaryStatistics();
        return places.getCount() == 0 || places.getMin() == places.getMax()
                ? ""
                : "%s: over %d to %d".formatted(measure.words(), places.getMin(), places.getMax());
    }

    /** How the SpO2 of a day was measured, beside which it is compared at whatever flow: "on oxygen", "on oxygen, measured on more oxygen than before: 3 l/min now, 2 l/min before". */
    public String spo2How(Day day) {
        String how = Vitals.howMeasured(day.spo2OnOxygen());
        String flow = flowBeside(day);
        return flow.isEmpty() ? how : how + ", " + flow;
    }

    /** The same of the flow alone; empty where it is as before, or nothing is there to say of it. */
    public String flowBeside(Day day) {
        return usualFlow == null || day.spo2Percent() == null
                ? ""
                : usualFlow.beside(day.spo2OnOxygen(), day.spo2LitresPerMinute());
    }

    /** The same of the newest day that has a round, as a sentence to stand beside the usual SpO2, within which it can lie because of it; else empty. */
    public String newestFlowWords() {
        return days.stream()
                .filter(day -> day.rounds() > 0)
                .reduce((earlier, later) -> later)
                .map(this::flowBeside)
                .filter(words -> !words.isEmpty())
                .map("SpO2 of the newest day: %s."::formatted)
                .orElse("");
    }

    /** What was usual before the newest day that has a round ({@link OwnUsual}), or null where too few days have a value. */
    public @Nullable Usual usual(Measure measure) {
        return usuals.get(measure);
    }

    /** The same of all of the last days; null where too few have a value. */
    public @Nullable Usual usualOfLastDays(Measure measure) {
        return usualsOfLastDays.get(measure);
    }

    private static List<OwnUsual.Value> values(Measure measure, Collection<Day> days) {
        List<OwnUsual.Value> values = new ArrayList<>();
        for (Day day : days) {
            Double value = measure.of(day);
            if (value != null) {
                Boolean how = measure == Measure.SPO2 ? day.spo2OnOxygen() : null;
                values.add(new OwnUsual.Value(day.day(), value, day.askedForClinician(), how));
            }
        }
        return values;
    }

    private static Day day(
            LocalDate day, List<Round> rounds, Map<UUID, List<Measured>> soundsOfRounds, boolean askedForClinician) {
        List<Measured> sounds = new ArrayList<>();
        List<Double> heard = new ArrayList<>();
        List<Double> counted = new ArrayList<>();
        List<Integer> flow = new ArrayList<>();
        List<Double> weights = new ArrayList<>();
        List<Double> oxygen = new ArrayList<>();
        for (Round round : rounds) {
            List<Measured> ofRound = soundsOfRounds.getOrDefault(round.id(), List.of());
            sounds.addAll(ofRound);
            add(heard, Measures.median(values(ofRound, take -> take.measures().ratePerMinute())));
            Vitals vitals = round.vitals();
            addNumber(counted, vitals.respiratoryRatePerMinute());
            add(flow, vitals.peakFlowLitresPerMinute());
            if (vitals.weightKg() != null) {
                weights.add(vitals.weightKg());
            }
            if (vitals.oxygenLitresPerMinute() != null) {
                oxygen.add(vitals.oxygenLitresPerMinute());
            }
        }
        Vitals saturation = OxygenDays.lowest(rounds.stream().map(Round::vitals).toList());
        Double wheeze =
                mean(values(sounds, Measured::wheezeShare), sounds.stream().anyMatch(Measured::continuousNotMeasured));
        Double crackles = mean(
                values(sounds, Measured::cracklesPerBreath), sounds.stream().anyMatch(Measured::cracklesNotMeasured));
        boolean rateHeard = counted.isEmpty() && !heard.isEmpty();
        return new Day(
                day,
                rounds.size(),
                wheeze,
                crackles,
                orNull((rateHeard ? heard : counted)
                        .stream().mapToDouble(v -> v).max()),
                rateHeard,
                saturation == null ? null : saturation.spo2Percent(),
                saturation == null ? null : saturation.onOxygen(),
                lowest(flow),
                orNull(weights.stream().mapToDouble(v -> v).max()),
                orNull(oxygen.stream().mapToDouble(v -> v).max()),
                saturation == null ? null : saturation.oxygenLitresPerMinute(),
                wheeze == null ? 0 : places(sounds, Measured::wheezeShare),
                crackles == null ? 0 : places(sounds, Measured::cracklesPerBreath),
                askedForClinician);
    }

    private static @Nullable Integer lowest(List<Integer> values) {
        return values.isEmpty() ? null : Collections.min(values);
    }

    private static void add(List<Integer> values, @Nullable Integer value) {
        if (value != null) {
            values.add(value);
        }
    }

    /** By round, the measures of the take that stands for each site: the first that suggests an extra sound, else the first that was judged. Takes after a cough or deep breaths answer another question. */
    private static Map<UUID, List<Measured>> sounds(Diary diary, UUID personId, Collection<List<Round>> rounds) {
        List<Instant> starts = rounds.stream()
                .flatMap(List::stream)
                .map(r -> r.startedAt().toInstant())
                .sorted()
                .toList();
        if (starts.isEmpty()) {
            return Map.of();
        }
        Map<UUID, Map<Site, Measured>> firsts = new HashMap<>();
        for (Measured take : diary.takes().measured(personId, starts.get(0), starts.get(starts.size() - 1))) {
            firsts.computeIfAbsent(take.roundId(), r -> new LinkedHashMap<>())
                    .merge(take.site(), take, Measured::moreTelling);
        }
        Map<UUID, List<Measured>> sounds = new HashMap<>();
        firsts.forEach((round, bySite) -> sounds.put(round, List.copyOf(bySite.values())));
        return sounds;
    }

    private static List<Double> values(List<Measured> takes, Function<Measured, @Nullable Double> value) {
        List<Double> values = new ArrayList<>();
        for (Measured m : takes) {
            Double v = value.apply(m);
            if (v != null) {
                values.add(v);
            }
        }
        return values;
    }

    /** How many places have a number: of two rounds of a day a place counts once. */
    private static int places(List<Measured> takes, Function<Measured, @Nullable Double> value) {
        return (int) takes.stream()
                .filter(take -> value.apply(take) != null)
                .map(Measured::site)
                .distinct()
                .count();
    }

    /** Over the sites with a number. A zero of the others is none where a sound is suggested, though not measured, at one: it would read as if none had been heard that day. */
    private static @Nullable Double mean(List<Double> values, boolean suggestedAndNotMeasured) {
        OptionalDouble mean = values.stream().mapToDouble(v -> v).average();
        return suggestedAndNotMeasured && mean.orElse(0) == 0 ? null : orNull(mean);
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
