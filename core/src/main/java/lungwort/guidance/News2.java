package lungwort.guidance;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The National Early Warning Score 2 (Royal College of Physicians 2017) as far as it is known: for people of 16 years and more, not in pregnancy.
 *
 * @param total points of the parts that are known: the full score is this or more
 * @param parts the parts that are known
 * @param missing names of the parts that are not scored, because they are not known or a clinician set limits for them; the score is whole only where this is empty
 * @param scale2 true if SpO2 scale 2 was used, which only a clinician can set
 */
public record News2(int total, List<Part> parts, List<String> missing, boolean scale2) {
    /**
     * One part of the score.
     *
     * @param name for people
     * @param points 0 to 3
     */
    public record Part(String name, int points) {}

    public News2 {
        parts = List.copyOf(parts);
        missing = List.copyOf(missing);
    }

    /** How awake the person is: as given, or as the danger-sign questions on waking and confusion were answered; null where neither was. */
    static @Nullable Consciousness consciousness(Situation situation) {
        Consciousness given = situation.vitals().consciousness();
        DangerAnswers answers = situation.dangerSigns();
        if (given != null) {
            return given;
        }
        if (answers.yes().contains("hard-to-wake")) {
            return Consciousness.VOICE;
        }
        if (answers.yes().contains("confused")) {
            return Consciousness.CONFUSED;
        }
        return answers.no().containsAll(Set.of("hard-to-wake", "confused")) ? Consciousness.ALERT : null;
    }

    /** True if every part is known. */
    public boolean complete() {
        return missing.isEmpty();
    }

    /**
     * The bands of the score: [up to this value, included; points], the last open.
     *
     * @param source of the bands
     * @param levelsSource of the totals
     * @param ages youngest and oldest, in months
     * @param urgentTotal points from which it is urgent
     * @param emergencyTotal points from which it is an emergency
     * @param oxygenPoints for breathing extra oxygen
     * @param notAlertPoints for new confusion or worse
     * @param bands by part
     */
    record Table(
            Citation source,
            Citation levelsSource,
            int[] ages,
            int urgentTotal,
            int emergencyTotal,
            int oxygenPoints,
            int notAlertPoints,
            Map<String, List<Double[]>> bands) {
        private static final List<Vital> PLAIN =
                List.of(Vital.RESPIRATORY_RATE, Vital.PULSE, Vital.TEMPERATURE, Vital.SYSTOLIC);

        /** The score, or null where it does not apply. */
        @Nullable
        News2 score(Situation situation) {
            int months = situation.age().months();
            if (months < ages[0] || months > ages[1] || situation.conditions().has(Condition.PREGNANCY)) {
                return null;
            }
            List<Part> parts = new ArrayList<>();
            List<String> missing = new ArrayList<>();
            Vitals vitals = situation.vitals();
            for (Vital vital : PLAIN) {
                Double value = replaced(situation.limits(), vital) ? null : vitals.value(vital);
                part(
                        parts,
                        missing,
                        named(situation.limits(), vital),
                        value == null ? null : points(vital.id(), value));
            }
            Integer spo2 = replaced(situation.limits(), Vital.SPO2)
                    ? null
                    : spo2Points(vitals, situation.limits().spo2Scale2());
            part(parts, missing, named(situation.limits(), Vital.SPO2), spo2);
            Boolean oxygen = vitals.onOxygen();
            part(parts, missing, "air or oxygen", oxygen == null ? null : oxygen ? oxygenPoints : 0);
            Consciousness level = consciousness(situation);
            part(
                    parts,
                    missing,
                    "consciousness",
                    level == null ? null : level == Consciousness.ALERT ? 0 : notAlertPoints);
            int total = parts.stream().mapToInt(Part::points).sum();
            return new News2(total, parts, missing, situation.limits().spo2Scale2());
        }

        /** A vital sign for which a clinician set limits is left out, so that the score does not contradict them. */
        private static boolean replaced(ClinicianLimits limits, Vital vital) {
            return switch (vital) {
                case SPO2 -> limits.spo2Below() != null;
                case RESPIRATORY_RATE -> limits.respiratoryRateAbove() != null;
                case PULSE -> limits.pulseAbove() != null;
                default -> false;
            };
        }

        /** With the reason where it was measured and is left out all the same. */
        private static String named(ClinicianLimits limits, Vital vital) {
            return replaced(limits, vital) ? vital.words() + " (a clinician set limits for it)" : vital.words();
        }

        private static void part(List<Part> parts, List<String> missing, String name, @Nullable Integer points) {
            if (points == null) {
                missing.add(name);
            } else {
                parts.add(new Part(name, points));
            }
        }

        private @Nullable Integer spo2Points(Vitals vitals, boolean scale2) {
            Integer percent = vitals.spo2Percent();
            if (percent == null) {
                return null;
            }
            if (!scale2) {
                return points("spo2-scale-1", percent);
            }
            int onAir = points("spo2-scale-2-air", percent);
            int onOxygen = points("spo2-scale-2-oxygen", percent);
            Boolean oxygen = vitals.onOxygen();
            if (oxygen == null) {
                return onAir == onOxygen ? Integer.valueOf(onAir) : null;
            }
            return oxygen ? onOxygen : onAir;
        }

        private int points(String part, double value) {
            for (Double[] band : bands.getOrDefault(part, List.of())) {
                if (band[0] == null || value <= band[0]) {
                    return band[1].intValue();
                }
            }
            throw new IllegalStateException("rules.json: news2 has no open band for " + part);
        }

        /** Three points in one part are urgent; two are a reason to measure again. */
        List<Rule> singles() {
            List<Rule> rules = new ArrayList<>();
            PLAIN.forEach(v -> singles(rules, v.id(), v, Set.of()));
            singles(rules, "spo2-scale-1", Vital.SPO2, EnumSet.of(Fact.SCALE_1));
            singles(rules, "spo2-scale-2-air", Vital.SPO2, EnumSet.of(Fact.SCALE_2));
            singles(rules, "spo2-scale-2-oxygen", Vital.SPO2, EnumSet.of(Fact.SCALE_2, Fact.ON_OXYGEN));
            return rules;
        }

        private void singles(List<Rule> rules, String part, Vital vital, Set<Fact> when) {
            List<Double[]> rows = bands.getOrDefault(part, List.of());
            boolean low = true;
            for (int i = 0; i < rows.size(); i++) {
                int points = rows.get(i)[1].intValue();
                low = low && points > 0;
                if (points >= 2) {
                    rules.add(single(
                            part,
                            vital,
                            when,
                            low ? atMost(vital, rows.get(i)[0]) : from(vital, rows.get(i - 1)[0]),
                            points));
                }
            }
        }

        private static Rule.Limit atMost(Vital vital, double value) {
            return new Rule.Limit(vital, Rule.Comparison.AT_MOST, value);
        }

        private static Rule.Limit from(Vital vital, double above) {
            return vital == Vital.TEMPERATURE
                    ? new Rule.Limit(vital, Rule.Comparison.ABOVE, above)
                    : new Rule.Limit(vital, Rule.Comparison.AT_LEAST, above + 1);
        }

        private Rule single(String part, Vital vital, Set<Fact> when, Rule.Limit limit, int points) {
            boolean urgent = points == 3;
            String id = String.format(
                    Locale.ROOT, "news2-%s-%s-%d", part, limit.is().low() ? "low" : "high", points);
            String text = urgent
                    ? "Three points in one part of the early-warning score NEWS2 are urgent."
                    : "Two points in one part of the early-warning score NEWS2.";
            List<Citation> sources =
                    urgent ? List.of(levelsSource) : List.of(source, new Citation("common practice", "C"));
            return new Rule(
                    id,
                    ages[0],
                    ages[1],
                    limit,
                    0,
                    when,
                    Set.of(),
                    EnumSet.of(Fact.PREGNANCY),
                    urgent ? Outcome.BE_SEEN_TODAY : Outcome.NEXT_TAKE,
                    text,
                    urgent
                            ? ""
                            : "Let the person rest for a quarter of an hour, then measure the %s again."
                                    .formatted(vital.words()),
                    sources);
        }
    }
}
