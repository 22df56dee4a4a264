package lungwort.round;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.TreeMap;
import java.util.UUID;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.Measures;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.Guidance;
import lungwort.guidance.Outcome;
import lungwort.guidance.UsualSpo2;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whole diaries, drawn from a seed that is printed: well weeks, an illness that grows over days, lasts for weeks and goes. BTS guideline for oxygen use in adults 2017 [P]: a fall of 3 % or more from
 * the usual is to be assessed. Half of them hold days on extra oxygen, which lifts the number, and days of which nobody said whether they were. That an illness, however long, makes no usual of its own is common practice [C].
 */
class WholeDiariesTest {
    private static final long SEED = Long.getLong("lungwort.seed", 20261130L);
    private static final int DIARIES = 8;
    private static final LocalDate FIRST = LocalDate.of(2026, 1, 1);
    private static final Person GRETA =
            new Person(UUID.randomUUID(), "Greta", YearMonth.of(1952, 4), Conditions.NONE, "", ClinicianLimits.NONE);

    private static final Conditions HEART = Conditions.of(Condition.HEART_FAILURE);

    @TempDir
    Path temp;

    @BeforeAll
    static void sayTheSeed() {
        System.out.println("WholeDiariesTest: seed " + SEED + " (set -Dlungwort.seed to change it)");
    }

    /**
     * What was answered on a day.
     *
     * @param spo2 in %
     * @param oxygen true on extra oxygen, false in air, null where nobody said
     * @param danger true if a danger sign was there
     * @param finished false if nobody finished the round
     * @param weightKg null where nobody was weighed
     */
    private record Drawn(
            LocalDate day,
            int spo2,
            @Nullable Boolean oxygen,
            boolean danger,
            boolean finished,
            @Nullable Double weightKg) {
        Drawn(LocalDate day, int spo2, @Nullable Boolean oxygen, boolean danger, boolean finished) {
            this(day, spo2, oxygen, danger, finished, null);
        }

        Drawn weighing(@Nullable Double kg) {
            return new Drawn(day, spo2, oxygen, danger, finished, kg);
        }
    }

    /** The same with what was said on that day. */
    private record Said(Drawn drawn, Outcome outcome, EarlierDays earlier) {
        boolean asked() {
            return outcome == Outcome.EMERGENCY_NOW || outcome == Outcome.BE_SEEN_TODAY;
        }
    }

    private static List<Drawn> draw(Random random) {
        return draw(random, false);
    }

    /** @param withOxygen true for a diary with days on oxygen: some while well, more in the illness */
    private static List<Drawn> draw(Random random, boolean withOxygen) {
        List<Drawn> days = new ArrayList<>();
        int usual = 95 + random.nextInt(5);
        int fall = 3 + random.nextInt(Math.min(5, usual - 94));
        double often = 0.4 + 0.6 * random.nextDouble();
        int well = 15 + random.nextInt(40);
        int grows = 3 + random.nextInt(8);
        int lasts = 25 + random.nextInt(35);
        int goes = 4 + random.nextInt(10);
        double habit = random.nextInt(2) * 0.3 * random.nextDouble();
        double said = 0.5 + 0.5 * random.nextDouble();
        int all = well + grows + lasts + goes + 15;
        for (int i = 0; i < all; i++) {
            double ill = Math.max(
                    0,
                    Math.min(
                            1,
                            Math.min((double) (i - well) / grows, (double) (well + grows + lasts + goes - i) / goes)));
            int spo2 = (int) Math.round(usual - fall * ill)
                    + List.of(-1, 0, 0, 0, 1).get(random.nextInt(5));
            boolean oxygen = withOxygen && random.nextDouble() < Math.max(habit, 0.7 * ill);
            Boolean how = withOxygen && random.nextDouble() < said ? (Boolean) oxygen : null;
            spo2 += oxygen ? 1 + random.nextInt(4) : 0;
            boolean danger = ill > 0.5 && random.nextInt(12) == 0;
            boolean finished = random.nextInt(5) > 0;
            if (random.nextDouble() < often) {
                days.add(new Drawn(FIRST.plusDays(i), Math.min(100, spo2), how, danger, finished));
            }
        }
        return days;
    }

    /** Goes through a diary as its person would have: what is said of a day rests on the days before it. */
    private List<Said> live(List<Drawn> days, String folder, boolean finishAll) {
        return live(days, folder, finishAll, GRETA.conditions());
    }

    private List<Said> live(List<Drawn> days, String folder, boolean finishAll, Conditions conditions) {
        List<Said> said = new ArrayList<>();
        Examples.MovingClock clock = new Examples.MovingClock();
        try (Diary diary = Diary.open(temp.resolve(folder), clock)) {
            RoundService service = Examples.service(diary);
            Person person = diary.persons().add("Greta", GRETA.birthMonth(), conditions, "", GRETA.limits());
            for (Drawn day : days) {
                clock.set(day.day() + "T12:00:00Z");
                Round round = service.start(person);
                EarlierDays earlier = Examples.earlier(diary, person, round);
                RoundView view = service.change(round.id(), now -> answered(now, day));
                if (day.finished() || finishAll) {
                    view = service.finish(round.id());
                }
                said.add(new Said(day, view.nextStep().outcome(), earlier));
            }
            // A list of rounds goes through the days once, and says the same of each.
            assertThat(diary.rounds().ofPerson(person.id()).stream().map(service.briefs(person)))
                    .extracting(view -> view.nextStep().outcome(), RoundView::earlier)
                    .containsExactlyElementsOf(said.stream()
                            .map(s -> tuple(s.outcome(), s.earlier()))
                            .toList());
        }
        return said;
    }

    private static Round answered(Round round, Drawn day) {
        Round measured = round.with(
                Vitals.NONE.withSpo2(day.spo2()).withOnOxygen(day.oxygen()).withWeight(day.weightKg()));
        return day.danger() ? measured.with(DangerAnswers.yes("half-feeds")) : measured;
    }

    /** The usual of the 28 days before: of those that asked for nobody where there are three, and no lower than that of all. */
    private static EarlierDays ofTheLastDays(List<Said> said, LocalDate day, boolean wellFirst) {
        Map<LocalDate, Double> all = new TreeMap<>();
        Map<LocalDate, Double> well = new TreeMap<>();
        for (Said s : said) {
            LocalDate then = s.drawn().day();
            if (then.isBefore(day) && !then.isBefore(day.minusDays(28))) {
                all.put(then, (double) s.drawn().spo2());
                // An unfinished round made a day no well one only by a danger sign.
                if (!(s.asked() && (s.drawn().finished() || s.drawn().danger()))) {
                    well.put(then, (double) s.drawn().spo2());
                }
            }
        }
        if (all.size() < 3) {
            return EarlierDays.NONE;
        }
        double ofAll = Measures.median(List.copyOf(all.values())).orElseThrow();
        double ofWell = well.size() < 3
                ? ofAll
                : Measures.median(List.copyOf(well.values())).orElseThrow();
        return EarlierDays.of(new UsualSpo2((int) (wellFirst ? Math.max(ofAll, ofWell) : ofAll), "of the last days"));
    }

    private static Outcome step(Drawn day, EarlierDays earlier) {
        Round round = answered(Round.begin(GRETA.id(), day.day().atTime(12, 0).atOffset(ZoneOffset.UTC)), day);
        return Guidance.decideFromBirthMonth(
                        Situations.of(GRETA, GRETA.age(day.day()), round, round.vitals(), List.of(), null, earlier))
                .outcome();
    }

    @Test
    void theNextStepIsNeverMilderThanWithTheUsualOfTheLastDays() {
        Random random = new Random(SEED);
        int graverThanAll = 0;
        int graverThanWell = 0;
        for (int i = 0; i < DIARIES; i++) {
            List<Said> said = live(draw(random), "never-milder-" + i, false);
            for (Said s : said) {
                Drawn day = s.drawn();
                Outcome ofAll = step(day, ofTheLastDays(said, day.day(), false));
                Outcome ofWell = step(day, ofTheLastDays(said, day.day(), true));
                assertThat(s.outcome().atLeast(ofAll))
                        .as("diary %d, %s, all days: %s", i, s, ofAll)
                        .isTrue();
                assertThat(s.outcome().atLeast(ofWell))
                        .as("diary %d, %s, well days: %s", i, s, ofWell)
                        .isTrue();
                graverThanAll += s.outcome() != ofAll ? 1 : 0;
                graverThanWell += s.outcome() != ofWell ? 1 : 0;
            }
        }
        System.out.printf(
                "  graver than with all days: %d, with the last well days: %d%n", graverThanAll, graverThanWell);
        assertThat(graverThanAll).isPositive();
        assertThat(graverThanWell).isPositive();
    }

    /** Before values in air and on oxygen were told apart, all made one usual: against that of the last days, of all or of the same kind, none is judged milder now. */
    @Test
    void keepingAirAndOxygenApartMakesNoStepMilder() {
        Random random = new Random(SEED + 3);
        int graverThanTogether = 0;
        for (int i = 0; i < DIARIES; i++) {
            List<Said> said = live(draw(random, true), "apart-" + i, false);
            for (Said s : said) {
                Drawn day = s.drawn();
                Outcome together = step(day, ofTheLastDays(said, day.day(), false));
                List<Said> sameKind = said.stream()
                        .filter(other -> Objects.equals(other.drawn().oxygen(), day.oxygen()))
                        .toList();
                assertThat(s.outcome().atLeast(together))
                        .as("diary %d, %s, together: %s", i, s, together)
                        .isTrue();
                for (boolean wellFirst : new boolean[] {false, true}) {
                    Outcome ofKind = step(day, ofTheLastDays(sameKind, day.day(), wellFirst));
                    assertThat(s.outcome().atLeast(ofKind))
                            .as("diary %d, %s, of the same kind: %s", i, s, ofKind)
                            .isTrue();
                }
                graverThanTogether += s.outcome() != together ? 1 : 0;
            }
        }
        System.out.printf("  graver than with all days together: %d%n", graverThanTogether);
        assertThat(graverThanTogether).isPositive();
    }

    /** Oxygen lifts the number: the same number on it is worse news. And where nobody said, it is judged as if it were the worse reading of the number. */
    @Test
    void theSameNumberOnOxygenOrNotSaidIsNeverJudgedMilderThanInAir() {
        Random random = new Random(SEED + 4);
        int graver = 0;
        for (int i = 0; i < DIARIES; i++) {
            for (Said s : live(draw(random, true), "same-number-" + i, false)) {
                Drawn day = s.drawn();
                Outcome inAir = step(measured(day, false), s.earlier());
                Outcome onOxygen = step(measured(day, true), s.earlier());
                Outcome notSaid = step(measured(day, null), s.earlier());
                assertThat(onOxygen.atLeast(inAir)).as("diary %d, %s", i, s).isTrue();
                assertThat(notSaid.atLeast(inAir)).as("diary %d, %s", i, s).isTrue();
                graver += onOxygen != inAir ? 1 : 0;
            }
        }
        assertThat(graver).isPositive();
    }

    private static Drawn measured(Drawn day, @Nullable Boolean oxygen) {
        return new Drawn(day.day(), day.spo2(), oxygen, day.danger(), day.finished());
    }

    /** Whoever measured without oxygen until now and breathes it asks for a clinician, day after day. */
    @Test
    void aPersonWhoNewlyNeedsOxygenIsAlwaysToBeSeen() {
        Random random = new Random(SEED + 5);
        int onlyThat = 0;
        for (int i = 0; i < DIARIES; i++) {
            List<Said> said = live(draw(random, true), "newly-" + i, false);
            boolean everBefore = false;
            int without = 0;
            for (Said s : said) {
                boolean oxygen = Objects.equals(s.drawn().oxygen(), true);
                if (oxygen && !everBefore && without >= 3) {
                    assertThat(s.asked()).as("diary %d, %s", i, s).isTrue();
                    onlyThat += step(s.drawn(), EarlierDays.of(s.earlier().usualOnOxygen()))
                                    .atLeast(Outcome.BE_SEEN_TODAY)
                            ? 0
                            : 1;
                }
                // A first day on oxygen is not new yet where too few without it are known.
                everBefore |= oxygen && without < 3;
                without += oxygen ? 0 : 1;
            }
        }
        assertThat(onlyThat).as("days on which nothing else asks").isPositive();
    }

    /** The same days with a scale in the house: water comes and goes in waves, some mornings are left out, some numbers are in pounds. */
    private static List<Drawn> weighed(List<Drawn> days, Random random) {
        double dry = 55 + random.nextInt(40);
        double often = 0.4 + 0.6 * random.nextDouble();
        double wave = 3 + 4 * random.nextDouble();
        double length = 8 + random.nextInt(20);
        List<Drawn> weighed = new ArrayList<>();
        for (Drawn day : days) {
            long on = ChronoUnit.DAYS.between(FIRST, day.day());
            double kg = dry + wave * Math.pow(Math.sin(Math.PI * on / length), 4) + 0.4 * random.nextGaussian();
            boolean pounds = random.nextInt(25) == 0;
            weighed.add(day.weighing(
                    random.nextDouble() < often
                            ? (Double) (Math.round(10 * kg * (pounds ? 2.2046 : 1)) / 10.0)
                            : null));
        }
        return weighed;
    }

    /** Whoever weighs is never told a milder step than without the scale, on that day or any later one; and no finished round makes another usual by it. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void aScaleInTheHouseMakesNoStepMilder(boolean heartFailure) {
        Conditions known = heartFailure ? HEART : Conditions.NONE;
        Random random = new Random(SEED + 6);
        int graver = 0;
        for (int i = 0; i < DIARIES; i++) {
            List<Drawn> days = draw(random, i % 2 > 0);
            String folder = "%s-%d".formatted(heartFailure, i);
            List<Said> without = live(days, "without-" + folder, false, known);
            List<Said> with = live(weighed(days, random), "with-" + folder, false, known);
            for (int day = 0; day < days.size(); day++) {
                Said now = with.get(day);
                assertThat(now.outcome().atLeast(without.get(day).outcome()))
                        .as("diary %d: %s, without a scale %s", i, now, without.get(day))
                        .isTrue();
                graver += now.outcome() != without.get(day).outcome() ? 1 : 0;
            }
        }
        System.out.printf("  graver with a scale: %d%n", graver);
        assertThat(graver > 0).as("without heart failure no weight is judged").isEqualTo(heartFailure);
    }

    /** European Society of Cardiology, guide for patients [P]: more than 2 kg in 3 days, told the doctor or nurse; whichever of these days lies lowest [C]. */
    @Test
    void everyRiseOfMoreThanTwoKgWithinThreeDaysIsToBeSeen() {
        Random random = new Random(SEED + 7);
        int risen = 0;
        int onlyFromAMiddleDay = 0;
        for (int i = 0; i < DIARIES; i++) {
            List<Said> said = live(weighed(draw(random), random), "risen-" + i, false, HEART);
            for (Said s : said) {
                List<Said> last = said.stream()
                        .filter(b -> b.drawn().day().isBefore(s.drawn().day())
                                && !b.drawn().day().isBefore(s.drawn().day().minusDays(3)))
                        .filter(b -> rise(b, s) > 20 && rise(b, s) <= 100 && 3 * tenths(s) <= 4 * tenths(b))
                        .toList();
                if (!last.isEmpty()) {
                    assertThat(s.asked())
                            .as("diary %d: %s after %s", i, s, last)
                            .isTrue();
                    risen++;
                    onlyFromAMiddleDay +=
                            last.get(0).drawn().day().equals(s.drawn().day().minusDays(3)) ? 0 : 1;
                }
            }
        }
        assertThat(risen).isGreaterThan(20);
        assertThat(onlyFromAMiddleDay).isPositive();
    }

    private static long tenths(Said said) {
        Double kg = said.drawn().weightKg();
        return kg == null ? 0 : Math.round(10 * kg);
    }

    private static long rise(Said before, Said now) {
        return tenths(before) == 0 || tenths(now) == 0 ? 0 : tenths(now) - tenths(before);
    }

    @Test
    void aLastingFallIsNeverJudgedMilderOnALaterDay() {
        Random random = new Random(SEED + 1);
        int longest = 0;
        for (int i = 0; i < DIARIES; i++) {
            List<Said> said = live(draw(random, i % 2 > 0), "lasting-" + i, false);
            for (int later = 0; later < said.size(); later++) {
                Said now = said.get(later);
                // Back through the days of the same illness: none of them well.
                for (int e = later - 1; e >= 0 && said.get(e).asked(); e--) {
                    Said then = said.get(e);
                    if (now.drawn().spo2() <= then.drawn().spo2()
                            && Objects.equals(now.drawn().oxygen(), then.drawn().oxygen())
                            && !then.drawn().danger()) {
                        assertThat(now.outcome().atLeast(then.outcome()))
                                .as("diary %d: %s, %d rounds later %s", i, then, later - e, now)
                                .isTrue();
                        longest = Math.max(longest, (int) ChronoUnit.DAYS.between(
                                then.drawn().day(), now.drawn().day()));
                    }
                }
            }
        }
        assertThat(longest)
                .as("an illness longer than the last days tests this")
                .isGreaterThan(28);
    }

    @Test
    void whetherRoundsWereFinishedIsNothingToTheUsual() {
        Random random = new Random(SEED + 2);
        for (int i = 0; i < DIARIES; i++) {
            List<Drawn> days = draw(random, i % 2 > 0);

            assertThat(live(days, "some-" + i, false)).as("diary %d", i).isEqualTo(live(days, "all-" + i, true));
            List<Drawn> weighed = weighed(days, random);
            assertThat(live(weighed, "some-weighed-" + i, false, HEART))
                    .as("diary %d, weighed", i)
                    .isEqualTo(live(weighed, "all-weighed-" + i, true, HEART));
        }
    }
}
