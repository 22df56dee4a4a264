package lungwort.guidance;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Finds every rule that applies to a situation. */
final class Reasons {
    /** The rule that a weight leads to a clinician by. */
    static final String WEIGHT_RISE = "weight-rise";

    /** The question that asks for what a weight tells as a number. */
    private static final String FLUID_GAIN = "fluid-gain";

    private final RuleBook book;
    private final Situation situation;
    private final @Nullable News2 news2;
    private final List<String> actions = new ArrayList<>();

    Reasons(RuleBook book, Situation situation, @Nullable News2 news2) {
        this.book = book;
        this.situation = situation;
        this.news2 = news2;
    }

    List<Reason> collect(Set<Fact> facts) {
        List<Reason> reasons = new ArrayList<>();
        dangerSigns(reasons);
        reasons.addAll(clinicianLimits());
        List<Rule> crossed = applying(facts);
        Set<Fact> all = EnumSet.copyOf(facts);
        if (breathingOutOfLimits(crossed, reasons)) {
            all.add(Fact.BREATHING_OUT_OF_LIMITS);
        }
        for (Rule rule : strongest(applying(all))) {
            reasons.add(reason(rule));
            if (!rule.action().isEmpty() && !actions.contains(rule.action())) {
                actions.add(rule.action());
            }
        }
        total(reasons);
        return reasons;
    }

    /** What the rules found say to do now; filled by {@link #collect}. */
    List<String> actions() {
        return List.copyOf(actions);
    }

    /** A sign that is there counts at any age, whether it would have been asked or not. */
    private void dangerSigns(List<Reason> reasons) {
        for (DangerSign sign : book.dangerSigns()) {
            if (situation.dangerSigns().yes().contains(sign.id())) {
                reasons.add(new Reason(
                        sign.id(),
                        sign.outcome(),
                        "Danger sign. " + sign.question(situation.age()) + " Yes.",
                        "",
                        sign.sources()));
            }
        }
    }

    private static boolean breathingOutOfLimits(List<Rule> crossed, List<Reason> clinician) {
        return !clinician.stream()
                        .filter(r -> r.rule().startsWith("clinician-spo2")
                                || r.rule().startsWith("clinician-respiratory"))
                        .toList()
                        .isEmpty()
                || crossed.stream()
                        .map(Rule::limit)
                        .anyMatch(l -> l != null && (l.vital() == Vital.SPO2 || l.vital() == Vital.RESPIRATORY_RATE));
    }

    private List<Rule> applying(Set<Fact> facts) {
        List<Rule> applying = new ArrayList<>();
        for (Rule rule : book.rules()) {
            boolean longEnough = rule.pauseSeconds() <= PausesHeard.longestOpen(situation);
            if (longEnough && rule.applies(situation.age(), facts) && crossed(rule.limit())) {
                applying.add(rule);
            }
        }
        return applying;
    }

    private boolean crossed(Rule.@Nullable Limit limit) {
        if (limit == null) {
            return true;
        }
        Double value = value(situation, limit.vital());
        return value != null && !replaced(situation.limits(), limit) && limit.crossed(value);
    }

    /** The value of a vital sign, worked out where it is not measured itself; null where it is not known. */
    static @Nullable Double value(Situation situation, Vital vital) {
        if (vital == Vital.WEIGHT_RISE) {
            return Weighing.rise(situation);
        }
        if (vital != Vital.PEAK_FLOW_SHARE) {
            return situation.vitals().value(vital);
        }
        Double flow = situation.vitals().value(Vital.PEAK_FLOW);
        Integer best = situation.limits().bestPeakFlowLitresPerMinute();
        return flow == null || best == null ? null : Double.valueOf(100 * flow / best);
    }

    /** True if a clinician's own limit stands in the place of this one. Limits on the other side (breathing too slowly) stay. */
    static boolean replaced(ClinicianLimits limits, Rule.Limit limit) {
        boolean low = limit.is().low();
        return switch (limit.vital()) {
            case SPO2 -> low && limits.spo2Below() != null;
            case RESPIRATORY_RATE -> !low && limits.respiratoryRateAbove() != null;
            case PULSE -> !low && limits.pulseAbove() != null;
            default -> false;
        };
    }

    /** Without those that the same source says more gravely about the same value. */
    private static List<Rule> strongest(List<Rule> rules) {
        List<Rule> kept = new ArrayList<>();
        for (Rule rule : rules) {
            if (rules.stream().noneMatch(other -> outranks(other, rule))) {
                kept.add(rule);
            }
        }
        return kept;
    }

    private static boolean outranks(Rule other, Rule rule) {
        Rule.Limit a = other.limit();
        Rule.Limit b = rule.limit();
        return a != null
                && b != null
                && a.vital() == b.vital()
                && a.is().low() == b.is().low()
                && other.sources().get(0).source().equals(rule.sources().get(0).source())
                && (other.outcome().compareTo(rule.outcome()) < 0
                        || (other.outcome() == rule.outcome() && other.id().compareTo(rule.id()) < 0 && a.equals(b)));
    }

    private Reason reason(Rule rule) {
        Rule.Limit limit = rule.limit();
        String text = rule.text()
                .replace("{spo2}", spo2())
                .replace("{usual-spo2}", usualSpo2())
                .replace("{usual-rate}", usualRate())
                .replace("{slow-spo2}", slowly(Vital.SPO2))
                .replace("{slow-rate}", slowly(Vital.RESPIRATORY_RATE))
                .replace("{oxygen-flow}", oxygenFlow())
                .replace("{flow-differs}", flowDiffers())
                .replace("{weight-rise}", Weighing.riseWords(situation))
                .replace("{weight-far}", Weighing.farWords(situation))
                .replace("{weight-no}", answeredNo())
                .replace("{pause}", PausesHeard.words(situation, rule.when()));
        if (limit != null) {
            Double value = value(situation, limit.vital());
            text = met(limit.vital(), value == null ? Double.NaN : value) + " " + text;
        }
        return new Reason(
                rule.id(),
                heard(limit, rule.outcome()),
                text + heardWords(limit, rule.outcome()),
                rule.limitWords(),
                rule.sources());
    }

    private String spo2() {
        Vitals vitals = situation.vitals();
        String how = vitals.howMeasured();
        return vitals.spo2Percent() + " %" + (how.isEmpty() ? "" : " " + how);
    }

    private String slowly(Vital vital) {
        return situation.earlier().slowChanges().stream()
                .filter(change -> change.vital() == vital)
                .map(SlowChange::words)
                .collect(Collectors.joining(" "));
    }

    /** Numbers outrank what somebody remembers of them. */
    private String answeredNo() {
        return situation.dangerSigns().no().contains(FLUID_GAIN)
                ? " The question about weight was answered with no; the numbers say otherwise, and they count."
                : "";
    }

    private String usualSpo2() {
        UsualSpo2 usual = situation.usualSpo2();
        return usual == null ? "" : usual.words();
    }

    private String oxygenFlow() {
        UsualFlow usual = situation.earlier().usualFlow();
        return usual == null ? "" : usual.riseWords(situation.vitals());
    }

    /** SpO2 is held against its own usual at whatever flow. */
    private String flowDiffers() {
        UsualFlow usual = situation.earlier().usualFlow();
        Vitals vitals = situation.vitals();
        String words = usual == null ? "" : usual.beside(vitals.onOxygen(), vitals.oxygenLitresPerMinute());
        return words.isEmpty() ? "" : " " + capital(words) + ".";
    }

    private String usualRate() {
        UsualRate usual = situation.earlier().usualRate();
        return usual == null ? "" : usual.words();
    }

    /** A rate that was only heard may be twice or half the true one: it sends people to count and to be seen, but calls no ambulance by itself. Common practice. */
    private Outcome heard(Rule.@Nullable Limit limit, Outcome outcome) {
        return onlyHeard(limit) && outcome == Outcome.EMERGENCY_NOW ? Outcome.BE_SEEN_TODAY : outcome;
    }

    private String heardWords(Rule.@Nullable Limit limit, Outcome outcome) {
        return onlyHeard(limit) && outcome == Outcome.EMERGENCY_NOW
                ? " The rate was only heard in a recording: count it now over a full minute. If the count says the same, it is an emergency."
                : "";
    }

    private boolean onlyHeard(Rule.@Nullable Limit limit) {
        return limit != null
                && limit.vital() == Vital.RESPIRATORY_RATE
                && situation.vitals().rateSource() == RateSource.HEARD;
    }

    private static String met(Vital vital, double value) {
        String words = vital.words();
        String rounded = Vital.number(Math.rint(value * 10) / 10);
        return capital(words) + " " + rounded + " " + vital.unit() + ".";
    }

    /** Words that begin a sentence. */
    static String capital(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    private List<Reason> clinicianLimits() {
        List<Reason> reasons = new ArrayList<>();
        ClinicianLimits limits = situation.limits();
        clinician(reasons, Vital.SPO2, limits.spo2Below(), Rule.Comparison.AT_MOST);
        clinician(reasons, Vital.RESPIRATORY_RATE, limits.respiratoryRateAbove(), Rule.Comparison.AT_LEAST);
        clinician(reasons, Vital.PULSE, limits.pulseAbove(), Rule.Comparison.AT_LEAST);
        return reasons;
    }

    private void clinician(
            List<Reason> reasons, Vital vital, ClinicianLimits.@Nullable Limit limit, Rule.Comparison is) {
        Double value = situation.vitals().value(vital);
        if (limit == null || value == null) {
            return;
        }
        boolean emergency = is.crossed(value, limit.emergency());
        if (emergency || is.crossed(value, limit.seenToday())) {
            Rule.Limit crossed = new Rule.Limit(vital, is, emergency ? limit.emergency() : limit.seenToday());
            Outcome outcome = emergency ? Outcome.EMERGENCY_NOW : Outcome.BE_SEEN_TODAY;
            ClinicianLimits set = situation.limits();
            String who = set.setOn().isBlank() ? set.setBy() : set.setBy() + ", " + set.setOn();
            reasons.add(new Reason(
                    "clinician-" + vital.id(),
                    heard(crossed, outcome),
                    met(vital, value) + " This crosses the limit that a clinician set for this person."
                            + heardWords(crossed, outcome),
                    crossed.words(),
                    List.of(new Citation("set for this person by " + who, "clinician"))));
        }
    }

    private void total(List<Reason> reasons) {
        if (news2 == null || news2.total() < book.news2().urgentTotal()) {
            return;
        }
        boolean emergency = news2.total() >= book.news2().emergencyTotal();
        String text = String.format(
                Locale.ROOT,
                "The early-warning score NEWS2 is %d%s.",
                news2.total(),
                news2.complete() ? "" : " or more (not scored: " + String.join(", ", news2.missing()) + ")");
        int limit = emergency ? book.news2().emergencyTotal() : book.news2().urgentTotal();
        reasons.add(new Reason(
                emergency ? "news2-emergency" : "news2-urgent",
                emergency ? Outcome.EMERGENCY_NOW : Outcome.BE_SEEN_TODAY,
                text,
                String.format(Locale.ROOT, "NEWS2 total %d or more, from 16 years", limit),
                List.of(book.news2().levelsSource())));
    }
}
