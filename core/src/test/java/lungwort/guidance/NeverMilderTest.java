package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiFunction;
import java.util.function.UnaryOperator;
import lungwort.examine.Suggestion;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Worse values, an added danger sign, an added sound, or less knowledge never lead to a milder next step. Random situations from a seed that is printed. */
class NeverMilderTest {
    private static final long SEED = Long.getLong("lungwort.seed", 20261125L);
    private static final int SITUATIONS = 1500;

    @BeforeAll
    static void sayTheSeed() {
        System.out.println("NeverMilderTest: seed " + SEED + " (set -Dlungwort.seed to change it)");
    }

    private static void neverMilder(String what, BiFunction<Situation, Random, Situation> worsen) {
        neverMilder(what, s -> s, worsen);
    }

    private static void neverMilder(
            String what, UnaryOperator<Situation> prepare, BiFunction<Situation, Random, Situation> worsen) {
        Random random = new Random(SEED);
        int graver = 0;
        for (int i = 0; i < SITUATIONS; i++) {
            Situation before = prepare.apply(situation(random));
            Situation after = worsen.apply(before, random);
            Outcome was = Guidance.decide(before).outcome();
            Outcome is = Guidance.decide(after).outcome();
            assertThat(is.atLeast(was))
                    .as("%s, situation %d: %s -> %s\n%s\n%s", what, i, was, is, before, after)
                    .isTrue();
            graver += is != was ? 1 : 0;
        }
        System.out.printf("  %s: %d of %d situations became graver%n", what, graver, SITUATIONS);
        assertThat(graver)
                .as("a worsening that never changes anything tests nothing")
                .isPositive();
    }

    @Test
    void whetherAClinicianIsAskedForIsWhatTheNextStepSays() {
        Random random = new Random(SEED);
        int asked = 0;
        for (int i = 0; i < SITUATIONS; i++) {
            Situation situation = situation(random);
            boolean asks = Guidance.asksForClinician(situation);
            assertThat(asks)
                    .as("situation %d: %s", i, situation)
                    .isEqualTo(
                            Guidance.decideFromBirthMonth(situation).outcome().atLeast(Outcome.BE_SEEN_TODAY));
            asked += asks ? 1 : 0;
        }
        assertThat(asked).isBetween(1, SITUATIONS - 1);
    }

    @Test
    void lessOxygen() {
        neverMilder("less oxygen", (s, r) -> {
            Integer spo2 = s.vitals().spo2Percent();
            boolean tooMuchIsBad =
                    s.limits().spo2Scale2() && !Objects.equals(s.vitals().onOxygen(), false);
            return spo2 == null || (tooMuchIsBad && spo2 > 92)
                    ? s.with(s.vitals().withSpo2(40))
                    : s.with(s.vitals().withSpo2(Math.max(30, spo2 - 1 - r.nextInt(8))));
        });
    }

    /** Of people who measured in air until now; on oxygen scale 2 asks more of the number, too. */
    @Test
    void oxygenThatWasNotNeededUntilNow() {
        neverMilder(
                "oxygen newly needed",
                s -> s.with(s.vitals().withOnOxygen(false)).with(new EarlierDays(null, null, null, true, List.of())),
                (s, r) -> s.with(s.vitals().withOnOxygen(true)));
    }

    @Test
    void aUsualThatFellOverMonths() {
        neverMilder(
                "a usual that fell over months",
                (s, r) -> s.with(new EarlierDays(
                        null,
                        null,
                        null,
                        false,
                        List.of(new SlowChange(Vital.SPO2, "", 98, "in May 2026", 95 - r.nextInt(5), "4 days")))));
    }

    /** Of adults with COPD. */
    @Test
    void aLowerUsualRate() {
        neverMilder(
                "a lower usual rate",
                s -> s.with(Conditions.of(Condition.COPD)).with(usualRate(18)),
                (s, r) -> s.with(usualRate(10 + r.nextInt(8))));
    }

    private static EarlierDays usualRate(int perMinute) {
        return EarlierDays.NONE.withUsualRate(new UsualRate(perMinute, "of 5 days"));
    }

    @Test
    void fasterOrSlowerBreathing() {
        neverMilder("breathing further from usual", (s, r) -> {
            Integer rate = s.vitals().respiratoryRatePerMinute();
            if (rate == null) {
                return s.with(s.vitals().withRespiratoryRate(140));
            }
            int away = 1 + r.nextInt(12);
            return s.with(s.vitals()
                    .withRespiratoryRate(rate >= Baseline.usualRate(s.age()) ? rate + away : Math.max(0, rate - away)));
        });
    }

    @Test
    void fasterOrSlowerPulse() {
        neverMilder("pulse further from usual", (s, r) -> {
            Integer pulse = s.vitals().pulsePerMinute();
            int away = 1 + r.nextInt(25);
            return s.with(s.vitals()
                    .withPulse(pulse == null ? 260 : pulse >= 75 ? pulse + away : Math.max(20, pulse - away)));
        });
    }

    @Test
    void hotterOrColder() {
        neverMilder("temperature further from usual", (s, r) -> {
            Double celsius = s.vitals().temperatureCelsius();
            double away = 0.1 * (1 + r.nextInt(15));
            return s.with(s.vitals()
                    .withTemperature(celsius == null ? 41.0 : celsius >= 37 ? celsius + away : celsius - away));
        });
    }

    @Test
    void lessClear() {
        neverMilder(
                "less clear",
                (s, r) -> s.with(s.vitals()
                        .withConsciousness(
                                s.vitals().consciousness() == null
                                        ? Consciousness.VOICE
                                        : next(s.vitals().consciousness(), Consciousness.values()))));
    }

    @Test
    void pressureFurtherFromUsual() {
        neverMilder("pressure further from usual", (s, r) -> {
            Integer mmHg = s.vitals().systolicMmHg();
            int away = 1 + r.nextInt(30);
            return s.with(s.vitals()
                    .withSystolic(
                            mmHg == null ? 60 : mmHg >= 125 ? Math.min(300, mmHg + away) : Math.max(40, mmHg - away)));
        });
    }

    @Test
    void lessPeakFlow() {
        ClinicianLimits best = new ClinicianLimits(null, null, null, false, 450, "", "");
        UnaryOperator<Situation> asthma =
                s -> s.with(Conditions.of(Condition.ASTHMA)).with(best);
        neverMilder("less peak flow", asthma, (s, r) -> {
            Integer flow = s.vitals().peakFlowLitresPerMinute();
            return s.with(s.vitals().withPeakFlow(flow == null ? 20 : Math.max(20, flow - 1 - r.nextInt(150))));
        });
    }

    private static final LocalDate MARCH_5 = LocalDate.of(2026, 3, 5);

    private static EarlierWeight before(int days, double kg) {
        return new EarlierWeight(MARCH_5.minusDays(days), days, kg);
    }

    private static List<EarlierWeight> weights(Random r) {
        List<EarlierWeight> weights = new ArrayList<>();
        for (int days = 5; days >= 0; days--) {
            if (r.nextInt(3) > 0) {
                weights.add(before(days, 60 + 0.1 * r.nextInt(60)));
            }
        }
        return weights;
    }

    /** Whether it is like the earlier ones, far from them or the first: a weight only adds. */
    @Test
    void aWeight() {
        neverMilder(
                "a weight",
                s -> s.with(s.vitals().withWeight(null)),
                (s, r) -> s.with(s.vitals().withWeight(r.nextInt(8) == 0 ? 140 : 60 + 0.1 * r.nextInt(90)))
                        .with(s.earlier().withWeights(weights(r))));
        neverMilder(
                "weights of earlier days",
                s -> s.with(Conditions.of(Condition.HEART_FAILURE))
                        .with(s.vitals().withWeight(66.0)),
                (s, r) -> s.with(s.earlier().withWeights(weights(r))));
    }

    private static UnaryOperator<Situation> onOxygen() {
        return s -> s.with(s.vitals().withOnOxygen(true));
    }

    private static EarlierDays flow(double litres, Random r) {
        return EarlierDays.NONE.withUsualFlow(
                new UsualFlow(litres, r.nextInt(3) == 0 ? null : Integer.valueOf(85 + r.nextInt(14)), "of 5 days"));
    }

    /** Like the earlier ones, more, less or the first: a flow only adds, and more of it never takes away. */
    @Test
    void aFlowOfOxygen() {
        neverMilder(
                "a flow of oxygen",
                onOxygen(),
                (s, r) -> s.with(s.vitals().withOxygenFlow(0.5 + 0.5 * r.nextInt(10)))
                        .with(flow(2, r)));
        neverMilder(
                "more oxygen",
                s -> onOxygen().apply(s).with(flow(2, new Random(s.hashCode()))),
                (s, r) -> s.with(s.vitals().withOxygenFlow(2.0 + 0.5 * r.nextInt(10))));
    }

    /** As long as it can be: one in pounds is asked about, and is no rise. */
    @Test
    void aHeavierWeight() {
        neverMilder(
                "a heavier weight",
                s -> s.with(Conditions.of(Condition.HEART_FAILURE))
                        .with(s.vitals().withWeight(64.0))
                        .with(s.earlier().withWeights(List.of(before(3, 63), before(1, 64.5)))),
                (s, r) -> s.with(s.vitals().withWeight(64.1 + 0.1 * r.nextInt(80))));
    }

    @Test
    void alsoALighterWeightBefore() {
        List<EarlierWeight> before = List.of(before(3, 63), before(1, 64.5));
        neverMilder(
                "a lighter weight before",
                s -> s.with(Conditions.of(Condition.HEART_FAILURE))
                        .with(s.vitals().withWeight(64.0))
                        .with(s.earlier().withWeights(before)),
                (s, r) -> s.with(s.earlier()
                        .withWeights(List.of(before.get(0), before(2, 55 + 0.1 * r.nextInt(100)), before.get(1)))));
    }

    @Test
    void moreBreathless() {
        neverMilder("more breathless", (s, r) -> {
            Breathlessness now = s.symptoms().breathlessness();
            return s.with(s.symptoms()
                    .withBreathlessness(now == null ? Breathlessness.AT_REST : next(now, Breathlessness.values())));
        });
    }

    @Test
    void anotherSymptom() {
        neverMilder("chest pain", (s, r) -> s.with(s.symptoms().withChestPain(true)));
        neverMilder("fever", (s, r) -> s.with(s.symptoms().withFever(true)));
        neverMilder("signs of infection", (s, r) -> s.with(s.symptoms().withChestInfection(true)));
    }

    @Test
    void anAddedDangerSign() {
        List<DangerSign> signs = Guidance.allDangerSigns();
        neverMilder("an added danger sign", (s, r) -> {
            String sign = signs.get(r.nextInt(signs.size())).id();
            Set<String> yes = new TreeSet<>(s.dangerSigns().yes());
            Set<String> no = new TreeSet<>(s.dangerSigns().no());
            yes.add(sign);
            no.remove(sign);
            return s.with(new DangerAnswers(yes, no));
        });
    }

    @Test
    void anAddedSound() {
        List<Suggestion> extra = List.of(Suggestion.CONTINUOUS, Suggestion.DISCONTINUOUS, Suggestion.BOTH);
        neverMilder(
                "an added sound", (s, r) -> s.plus(SoundFinding.first(site(r), extra.get(r.nextInt(extra.size())))));
    }

    /** That none was found never lowers an outcome, neither as one more site nor as the only recording. */
    @ParameterizedTest
    @EnumSource(
            value = Suggestion.class,
            names = {"NONE_HEARD", "NONE_STANDS_OUT"})
    void noneFound(Suggestion none) {
        neverMilder("none found", (s, r) -> s.plus(SoundFinding.first(site(r), none)));
        neverMilder(
                "none found in place of no recording",
                s -> s.with(List.of()),
                (s, r) -> s.plus(SoundFinding.first(site(r), none)));
    }

    /** That nothing stands out in the last of the next takes is never milder than that take not made, nor than none heard in it. */
    @ParameterizedTest
    @EnumSource(
            value = Suggestion.class,
            names = {"CONTINUOUS", "DISCONTINUOUS", "BOTH"})
    void nothingStandsOutInALaterTake(Suggestion sound) {
        SoundFinding heard = SoundFinding.first(Sites.of("back-lower-left"), sound)
                .then(TakeReason.MOVED, sound)
                .then(TakeReason.AFTER_DEEP_BREATHS, sound);
        for (SoundFinding before : List.of(heard, heard.then(TakeReason.AFTER_COUGH, Suggestion.NONE_HEARD))) {
            neverMilder(
                    "nothing stands out later",
                    s -> s.with(List.of(before)),
                    (s, r) -> s.with(List.of(heard.then(TakeReason.AFTER_COUGH, Suggestion.NONE_STANDS_OUT))));
        }
    }

    @Test
    void aRecordingThatCannotBeJudged() {
        neverMilder("cannot tell", (s, r) -> s.plus(SoundFinding.first(site(r), Suggestion.CANNOT_TELL)));
    }

    /** An extra sound in place of none heard, in a person who is not short of breath; in one who is, none heard may be the graver (a silent chest). */
    @Test
    void anExtraSoundInPlaceOfNoneHeard() {
        List<Suggestion> extra = List.of(Suggestion.CONTINUOUS, Suggestion.DISCONTINUOUS, Suggestion.BOTH);
        neverMilder(
                "an extra sound in place of none heard",
                s -> s.with(List.of(SoundFinding.first(Sites.of("back-lower-left"), Suggestion.NONE_HEARD)))
                        .with(s.symptoms().withBreathlessness(Breathlessness.NONE)),
                (s, r) -> s.with(List.of(SoundFinding.first(Sites.of("back-lower-left"), extra.get(r.nextInt(3))))));
    }

    private static <T> T next(@Nullable T now, T[] values) {
        int index = List.of(values).indexOf(now);
        return values[Math.min(index + 1, values.length - 1)];
    }

    private static Site site(Random random) {
        List<Site> sites = Sites.catalogue();
        return sites.get(random.nextInt(sites.size()));
    }

    private static Situation situation(Random random) {
        int[] months = {0, 1, 2, 5, 8, 11, 12, 20, 30, 50, 59, 60, 71, 100, 143, 144, 180, 191, 192, 215, 216, 400, 900
        };
        Age age = new Age(months[random.nextInt(months.length)]);
        Situation s = Baseline.of(age);
        List<UnaryOperator<Situation>> changes = changes(random);
        int n = random.nextInt(5);
        for (int i = 0; i < n; i++) {
            s = changes.get(random.nextInt(changes.size())).apply(s);
        }
        return s;
    }

    private static List<UnaryOperator<Situation>> changes(Random r) {
        Suggestion[] suggestions = Suggestion.values();
        List<UnaryOperator<Situation>> changes = new ArrayList<>();
        changes.add(s -> s.with(s.vitals().withSpo2(r.nextInt(5) == 0 ? null : Integer.valueOf(80 + r.nextInt(21)))));
        changes.add(s ->
                s.with(s.vitals().withRespiratoryRate(r.nextInt(5) == 0 ? null : Integer.valueOf(4 + r.nextInt(76)))));
        changes.add(s -> s.with(s.vitals().withPulse(r.nextInt(5) == 0 ? null : Integer.valueOf(35 + r.nextInt(120)))));
        changes.add(s -> s.with(
                s.vitals().withTemperature(r.nextInt(5) == 0 ? null : Double.valueOf(34 + 0.1 * r.nextInt(70)))));
        changes.add(s ->
                s.with(s.vitals().withSystolic(r.nextInt(5) == 0 ? null : Integer.valueOf(80 + r.nextInt(150)))));
        changes.add(s -> s.with(s.vitals().withOnOxygen(r.nextInt(3) == 0 ? null : Boolean.valueOf(r.nextBoolean()))));
        changes.add(s ->
                s.with(s.vitals().withConsciousness(r.nextInt(3) == 0 ? null : Consciousness.values()[r.nextInt(5)])));
        changes.add(s -> s.with(s.vitals().withPeakFlow(100 + r.nextInt(500))).with(Conditions.of(Condition.ASTHMA)));
        changes.add(s -> s.with(
                s.symptoms().withBreathlessness(r.nextInt(4) == 0 ? null : Breathlessness.values()[r.nextInt(3)])));
        changes.add(s -> s.with(s.symptoms().withFever(r.nextBoolean() ? null : Boolean.TRUE)));
        changes.add(s -> s.with(Conditions.of(Condition.values()[r.nextInt(5)])));
        changes.add(s -> s.with(new ClinicianLimits(null, null, null, true, 450, "a clinician", "")));
        changes.add(s -> s.with(new ClinicianLimits(
                new ClinicianLimits.Limit(88, 84),
                new ClinicianLimits.Limit(Baseline.usualRate(s.age()) + 8, Baseline.usualRate(s.age()) + 14),
                new ClinicianLimits.Limit(115, 135),
                r.nextBoolean(),
                null,
                "a clinician",
                "")));
        changes.add(s -> s.with(DangerAnswers.NOT_ASKED));
        changes.add(s -> s.plus(SoundFinding.first(site(r), suggestions[r.nextInt(suggestions.length)])
                .withBreathHeard(r.nextInt(4) == 0 ? Boolean.FALSE : null)
                .withKnownToClinician(r.nextInt(4) == 0)));
        changes.add(s -> s.plus(SoundFinding.first(site(r), Suggestion.BOTH)
                .then(TakeReason.MOVED, suggestions[r.nextInt(suggestions.length)])
                .then(TakeReason.AFTER_COUGH, suggestions[r.nextInt(suggestions.length)])));
        return changes;
    }
}
