package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lungwort.examine.Suggestion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The rows of REFERENCE.md sections 2 and 3 that set a limit on a vital sign, each on both sides of the limit and at both ends of its ages. Typed from the reference, not from
 * the rules file. Marks: P seen on the source's page, S second-hand, M from memory, C common practice.
 */
class LimitTablesTest {
    /** One row: the ages in months, who, which value, the last value that does not cross and the first that does. */
    record Row(
            String rule,
            String source,
            String mark,
            int fromMonths,
            int toMonths,
            UnaryOperator<Situation> person,
            Vital vital,
            double within,
            double crossing,
            Outcome outcome) {
        @Override
        public String toString() {
            return rule + " " + vital.words() + " " + within + " | " + crossing;
        }
    }

    private static final int OLD = 90 * 12;
    private static final UnaryOperator<Situation> ANYONE = s -> s;
    private static final UnaryOperator<Situation> ASTHMA = s -> s.with(Conditions.of(Condition.ASTHMA))
            .with(new ClinicianLimits(null, null, null, false, 400, "", ""))
            .with(s.vitals().withPeakFlow(400));
    private static final UnaryOperator<Situation> FEVER =
            s -> s.with(s.symptoms().withFever(true));
    private static final UnaryOperator<Situation> WHEEZE =
            s -> s.plus(SoundFinding.first(Sites.of("back-lower-left"), Suggestion.CONTINUOUS));
    private static final UnaryOperator<Situation> SCALE_2 =
            s -> s.with(new ClinicianLimits(null, null, null, true, null, "a chest physician", "2026-03-01"))
                    .with(s.vitals().withSpo2(90));
    private static final UnaryOperator<Situation> WEIGHED =
            s -> s.with(EarlierDays.NONE.withWeights(List.of(new EarlierWeight(LocalDate.of(2026, 3, 2), 3, 70))));
    private static final UnaryOperator<Situation> HEART_WEIGHED =
            s -> WEIGHED.apply(s).with(Conditions.of(Condition.HEART_FAILURE));
    private static final UnaryOperator<Situation> PREGNANT = s -> s.with(Conditions.of(Condition.PREGNANCY));

    static Stream<Row> rows() {
        Outcome emergency = Outcome.EMERGENCY_NOW;
        Outcome seen = Outcome.BE_SEEN_TODAY;
        Outcome again = Outcome.NEXT_TAKE;
        Vital rate = Vital.RESPIRATORY_RATE;
        Vital oxygen = Vital.SPO2;
        return Stream.of(
                // WHO fast breathing [S]; SpO2 < 90 % in a child: the threshold for oxygen [S]
                new Row("who-fast-breathing-under-2-months", "WHO", "S", 0, 1, ANYONE, rate, 59, 60, seen),
                new Row("who-fast-breathing-2-11-months", "WHO", "S", 2, 11, ANYONE, rate, 49, 50, seen),
                new Row("who-fast-breathing-12-59-months", "WHO", "S", 12, 59, ANYONE, rate, 39, 40, seen),
                new Row("who-low-oxygen-child", "WHO", "S", 0, 215, ANYONE, oxygen, 90, 89, emergency),
                // UK home oximetry, adults [S]
                new Row("home-oximetry-moderate", "UK home oximetry", "S", 216, OLD, ANYONE, oxygen, 95, 94, seen),
                new Row("home-oximetry-severe", "UK home oximetry", "S", 216, OLD, ANYONE, oxygen, 93, 92, emergency),
                // Section 1 [C]: 95 % or more in the very healthy; lower end of normal 92 %, below that seek a
                // professional
                new Row("borderline-oxygen", "common practice", "C", 0, OLD, ANYONE, oxygen, 95, 94, again),
                new Row("low-oxygen", "common practice", "C", 0, OLD, ANYONE, oxygen, 92, 91, seen),
                // BTS oxygen targets 88-92 % where hypercapnia is a risk [P; NEWS2's scale agrees, P]: only where a
                // clinician set it
                new Row("scale-2-below-target", "BTS oxygen targets", "P", 192, OLD, SCALE_2, oxygen, 88, 87, seen),
                new Row("scale-2-below-target", "NEWS2", "P", 192, OLD, SCALE_2, oxygen, 88, 87, seen),
                // that it is an emergency at home is common practice [C]; three points of NEWS2's scale 2
                new Row(
                        "scale-2-far-below-target",
                        "common practice",
                        "C",
                        192,
                        OLD,
                        SCALE_2,
                        oxygen,
                        84,
                        83,
                        emergency),
                // Section 3 [C]: extra sounds with low SpO2
                new Row("extra-sound-with-low-oxygen", "common practice", "C", 0, OLD, WHEEZE, oxygen, 95, 94, seen),
                // NICE NG9, bronchiolitis [S]
                new Row("ng9-rate-emergency", "NG9", "S", 0, 23, ANYONE, rate, 70, 71, emergency),
                new Row("ng9-rate-referral", "NG9", "S", 0, 23, ANYONE, rate, 60, 61, seen),
                new Row("ng9-oxygen-referral", "NG9", "S", 0, 23, ANYONE, oxygen, 92, 91, seen),
                // NICE NG143, fever under 5 [S]
                new Row("ng143-amber-rate-6-11-months", "NG143", "S", 6, 11, FEVER, rate, 50, 51, seen),
                new Row("ng143-amber-rate-12-59-months", "NG143", "S", 12, 59, FEVER, rate, 40, 41, seen),
                new Row("ng143-amber-oxygen", "NG143", "S", 0, 59, FEVER, oxygen, 96, 95, seen),
                new Row("ng143-red-rate", "NG143", "S", 0, 59, FEVER, rate, 60, 61, emergency),
                // BTS/SIGN, adult asthma [P]
                new Row("bts-severe-rate", "BTS/SIGN", "P", 144, OLD, ASTHMA, rate, 24, 25, emergency),
                new Row("bts-severe-pulse", "BTS/SIGN", "P", 144, OLD, ASTHMA, Vital.PULSE, 109, 110, emergency),
                new Row("bts-life-threatening-oxygen", "BTS/SIGN", "P", 144, OLD, ASTHMA, oxygen, 92, 91, emergency),
                // peak flow as a share of the best, here 400 l/min: BTS/SIGN by summaries for general practitioners [S]
                new Row("bts-moderate-peak-flow", "BTS/SIGN", "S", 144, OLD, ASTHMA, Vital.PEAK_FLOW, 301, 300, seen),
                new Row(
                        "bts-severe-peak-flow",
                        "BTS/SIGN",
                        "S",
                        144,
                        OLD,
                        ASTHMA,
                        Vital.PEAK_FLOW,
                        201,
                        200,
                        emergency),
                // European Society of Cardiology, guide for patients [P]: more than 2 kg in 3 days, here from 70 kg
                new Row(
                        "weight-rise",
                        "European Society of Cardiology",
                        "P",
                        192,
                        OLD,
                        HEART_WEIGHED,
                        Vital.WEIGHT,
                        72,
                        72.1,
                        seen),
                new Row(
                        "weight-rise-not-judged",
                        "European Society of Cardiology",
                        "P",
                        192,
                        OLD,
                        WEIGHED,
                        Vital.WEIGHT,
                        72,
                        72.1,
                        Outcome.KEEP_WATCHING),
                // GINA, children [S]
                new Row("gina-oxygen-to-5-years", "GINA", "S", 0, 71, ANYONE, oxygen, 92, 91, emergency),
                new Row("gina-rate-to-5-years-asthma", "GINA", "S", 0, 71, ASTHMA, rate, 40, 41, emergency),
                new Row("gina-rate-to-5-years-wheezing", "GINA", "S", 12, 71, WHEEZE, rate, 40, 41, emergency),
                new Row("gina-oxygen-6-11-years", "GINA", "S", 72, 143, ANYONE, oxygen, 90, 89, emergency),
                new Row("gina-rate-6-11-years", "GINA", "S", 72, 143, ASTHMA, rate, 30, 31, emergency),
                new Row("gina-rate-6-11-years", "GINA", "S", 72, 143, WHEEZE, rate, 30, 31, emergency),
                new Row("gina-pulse-6-11-years", "GINA", "S", 72, 143, ASTHMA, Vital.PULSE, 120, 121, emergency),
                // babies with a fever or cold: NG143 by summaries, IMCI by a review of neonatal sepsis [S]
                new Row(
                        "ng143-red-baby-temperature",
                        "NG143",
                        "S",
                        0,
                        2,
                        ANYONE,
                        Vital.TEMPERATURE,
                        37.9,
                        38.0,
                        emergency),
                new Row(
                        "ng143-amber-baby-temperature",
                        "NG143",
                        "S",
                        3,
                        5,
                        ANYONE,
                        Vital.TEMPERATURE,
                        38.9,
                        39.0,
                        seen),
                new Row("who-cold-baby", "WHO", "S", 0, 1, ANYONE, Vital.TEMPERATURE, 35.5, 35.4, emergency),
                // common practice [C]: hardly breathing; pregnancy, for which NEWS2 is not made
                new Row("hardly-breathing", "common practice", "C", 0, OLD, ANYONE, rate, 6, 5, emergency),
                new Row("hardly-breathing-baby", "common practice", "C", 0, 11, ANYONE, rate, 15, 14, emergency),
                new Row(
                        "very-high-temperature",
                        "common practice",
                        "C",
                        0,
                        OLD,
                        ANYONE,
                        Vital.TEMPERATURE,
                        39.9,
                        40.0,
                        seen),
                new Row(
                        "very-low-temperature",
                        "common practice",
                        "C",
                        0,
                        OLD,
                        ANYONE,
                        Vital.TEMPERATURE,
                        35.0,
                        34.9,
                        seen),
                new Row("fever", "common practice", "C", 0, OLD, ANYONE, Vital.TEMPERATURE, 37.9, 38.0, again),
                new Row("pregnancy-rate", "common practice", "C", 216, 600, PREGNANT, rate, 20, 21, seen),
                new Row("pregnancy-slow-rate", "common practice", "C", 216, 600, PREGNANT, rate, 11, 10, seen),
                new Row("pregnancy-pulse", "common practice", "C", 216, 600, PREGNANT, Vital.PULSE, 109, 110, seen),
                new Row("pregnancy-slow-pulse", "common practice", "C", 216, 600, PREGNANT, Vital.PULSE, 51, 50, seen),
                new Row(
                        "pregnancy-fever",
                        "common practice",
                        "C",
                        216,
                        600,
                        PREGNANT,
                        Vital.TEMPERATURE,
                        37.9,
                        38.0,
                        seen),
                new Row(
                        "pregnancy-cold",
                        "common practice",
                        "C",
                        216,
                        600,
                        PREGNANT,
                        Vital.TEMPERATURE,
                        35.1,
                        35.0,
                        seen),
                new Row(
                        "pregnancy-high-pressure",
                        "common practice",
                        "C",
                        216,
                        600,
                        PREGNANT,
                        Vital.SYSTOLIC,
                        139,
                        140,
                        seen),
                new Row(
                        "pregnancy-low-pressure",
                        "common practice",
                        "C",
                        216,
                        600,
                        PREGNANT,
                        Vital.SYSTOLIC,
                        91,
                        90,
                        seen));
    }

    @ParameterizedTest
    @MethodSource("rows")
    void aRowAppliesFromItsLimitOnAndNotBefore(Row row) {
        for (int months : List.of(row.fromMonths(), (row.fromMonths() + row.toMonths()) / 2, row.toMonths())) {
            Situation person = row.person().apply(Baseline.of(new Age(months)));
            NextStep crossing = Guidance.decide(set(person, row.vital(), row.crossing()));
            NextStep within = Guidance.decide(set(person, row.vital(), row.within()));
            assertThat(Baseline.cites(crossing, row.rule(), row.source(), row.mark()))
                    .as("%s at %d months cites %s [%s]: %s", row, months, row.source(), row.mark(), crossing.reasons())
                    .isTrue();
            assertThat(crossing.reasons().stream().filter(r -> r.rule().equals(row.rule())))
                    .allMatch(r -> r.outcome() == row.outcome()
                            && (row.rule().equals("fever") || !r.limit().isEmpty()));
            assertThat(crossing.outcome().atLeast(row.outcome()))
                    .as("outcome at %d months", months)
                    .isTrue();
            assertThat(Baseline.names(within, row.rule()))
                    .as("%s at %d months, within", row, months)
                    .isFalse();
        }
    }

    @ParameterizedTest
    @MethodSource("rows")
    void aRowDoesNotApplyOutsideItsAges(Row row) {
        for (int months : List.of(row.fromMonths() - 1, row.toMonths() + 1)) {
            if (months < 0 || months > OLD || row.person() == PREGNANT) {
                continue;
            }
            Situation person = row.person().apply(Baseline.of(new Age(months)));
            assertThat(Baseline.names(Guidance.decide(set(person, row.vital(), row.crossing())), row.rule()))
                    .as("%s at %d months", row, months)
                    .isFalse();
        }
    }

    /** A limit that is added to the rules file needs its row here. NEWS2 and Fleming have tests of their own. */
    @Test
    void everyLimitOfTheRulesFileHasARow() {
        Set<String> rows = rows().map(Row::rule).collect(Collectors.toSet());
        assertThat(Guidance.book().rules().stream()
                        .filter(r ->
                                r.limit() != null && !r.id().startsWith("news2-") && !r.id().startsWith("fleming-"))
                        .map(Rule::id))
                .isSubsetOf(rows);
    }

    /** Without this, a row could pass because something else was already wrong. */
    @ParameterizedTest
    @ValueSource(
            ints = {0, 1, 2, 5, 6, 11, 12, 23, 24, 35, 36, 59, 60, 71, 72, 143, 144, 191, 192, 215, 216, 600, 1080})
    void nothingIsSaidOfAPersonWithOrdinaryValuesButToKeepWatching(int months) {
        NextStep step = Guidance.decide(Baseline.of(new Age(months)));
        assertThat(step.reasons()).isEmpty();
        assertThat(step.outcome()).isEqualTo(Outcome.KEEP_WATCHING);
    }

    static Situation set(Situation s, Vital vital, double value) {
        Vitals v = s.vitals();
        return s.with(
                switch (vital) {
                    case SPO2 -> v.withSpo2((int) value);
                    case RESPIRATORY_RATE -> v.withRespiratoryRate((int) value);
                    case PULSE -> v.withPulse((int) value);
                    case TEMPERATURE -> v.withTemperature(value);
                    case SYSTOLIC -> v.withSystolic((int) value);
                    case PEAK_FLOW -> v.withPeakFlow((int) value);
                    case WEIGHT -> v.withWeight(value);
                    case OXYGEN_FLOW -> v.withOnOxygen(true).withOxygenFlow(value);
                    case PEAK_FLOW_SHARE, WEIGHT_RISE -> throw new IllegalArgumentException("worked out, not measured");
                });
    }
}
