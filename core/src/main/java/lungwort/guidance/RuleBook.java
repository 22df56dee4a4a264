package lungwort.guidance;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The rules file, read: {@code lungwort/guidance/rules.json}. Every limit, age band, source and mark stands there; the code only compares.
 *
 * @param dangerSigns in the order in which they are asked
 * @param rules those of the file, and those made from the tables of NEWS2 and Fleming
 * @param news2 the score's bands
 * @param missing what is asked for
 * @param cautions what is said beside
 */
record RuleBook(
        List<DangerSign> dangerSigns, List<Rule> rules, News2.Table news2, List<Ask> missing, List<Caution> cautions) {
    private static final int FORMAT = 1;

    /** What is asked for when it was not given. */
    record Ask(String id, int[] ages, boolean needed, String text) {
        boolean asked(Age age) {
            return age.months() >= ages[0] && age.months() <= ages[1];
        }
    }

    /** A sentence said beside every next step, or where all facts hold. */
    record Caution(String id, String text, List<Citation> sources, Set<Fact> when) {}

    /** The shipped rules. */
    static RuleBook shipped() {
        try (InputStream in = RuleBook.class.getResourceAsStream("rules.json")) {
            if (in == null) {
                throw new IllegalStateException("rules.json is missing from the jar");
            }
            return read(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static RuleBook read(InputStream in) throws IOException {
        File file = new JsonMapper().readValue(in, File.class);
        if (file.format() != FORMAT) {
            throw new IllegalStateException("rules.json: format " + file.format() + ", expected " + FORMAT);
        }
        List<Rule> rules = new ArrayList<>();
        file.rules().forEach(r -> rules.add(r.rule()));
        rules.addAll(file.news2().singles());
        rules.addAll(file.fleming().rules());
        return new RuleBook(
                file.dangerSigns().stream().map(DangerEntry::sign).toList(),
                List.copyOf(rules),
                file.news2(),
                file.missing(),
                file.cautions().stream().map(CautionEntry::caution).toList());
    }

    /**
     * What a breathing rate well above this person's own usual would lead to; empty where it leads to nothing, or no usual is known.
     *
     * @param known facts of the situation
     */
    Optional<Rule> onRateAboveUsual(Situation situation, Set<Fact> known) {
        if (situation.earlier().usualRate() == null) {
            return Optional.empty();
        }
        Set<Fact> facts = EnumSet.copyOf(known);
        facts.add(Fact.RATE_ABOVE_USUAL);
        return rules.stream()
                .filter(rule -> rule.when().contains(Fact.RATE_ABOVE_USUAL) && rule.applies(situation.age(), facts))
                .findFirst();
    }

    private record File(
            List<String> about,
            int format,
            List<DangerEntry> dangerSigns,
            List<RuleEntry> rules,
            News2.Table news2,
            Fleming fleming,
            List<Ask> missing,
            List<CautionEntry> cautions) {}

    private record DangerEntry(
            String id,
            int[] ages,
            String outcome,
            String question,
            @Nullable List<DangerSign.Wording> wordings,
            @Nullable List<String> conditions,
            List<Citation> sources) {
        DangerSign sign() {
            return new DangerSign(
                    id,
                    question,
                    wordings == null ? List.of() : wordings,
                    ages[0],
                    ages[1],
                    conditions == null
                            ? Set.of()
                            : conditions.stream().map(Condition::ofId).collect(Collectors.toSet()),
                    outcomeOf(outcome),
                    sources);
        }
    }

    private record RuleEntry(
            String id,
            int[] ages,
            @Nullable String vital,
            @JsonProperty("is") @Nullable String is,
            double limit,
            double pauseSeconds,
            @Nullable List<String> when,
            @Nullable List<String> either,
            @Nullable List<String> unless,
            String outcome,
            String text,
            @JsonProperty("do") @Nullable String action,
            List<Citation> sources) {
        Rule rule() {
            Rule.Limit onVital =
                    vital == null || is == null ? null : new Rule.Limit(vitalOf(vital), comparison(is), limit);
            return new Rule(
                    id,
                    ages[0],
                    ages[1],
                    onVital,
                    pauseSeconds,
                    facts(when),
                    facts(either),
                    facts(unless),
                    outcomeOf(outcome),
                    text,
                    action == null ? "" : action,
                    sources);
        }
    }

    private record CautionEntry(
            String id,
            String text,
            @Nullable List<Citation> sources,
            @Nullable List<String> when) {
        Caution caution() {
            return new Caution(id, text, sources == null ? List.of() : sources, facts(when));
        }
    }

    /** Respiratory rate by age: bands of [from month, to month, 1st, 10th, 90th, 99th centile]. */
    private record Fleming(Citation source, List<int[]> bands) {
        List<Rule> rules() {
            List<Rule> rules = new ArrayList<>();
            for (int[] band : bands) {
                String id = String.format(Locale.ROOT, "fleming-%d-%d-months-", band[0], band[1]);
                String slow = "Slower than all but 1 in 100 children of this age.";
                String ratherSlow = "Slower than nine in ten children of this age.";
                String ratherFast = "Faster than nine in ten children of this age.";
                String fast = "Faster than all but 1 in 100 children of this age.";
                rules.add(rule(id + "p1", band, Rule.Comparison.BELOW, band[2], Outcome.BE_SEEN_TODAY, slow));
                rules.add(rule(id + "p10", band, Rule.Comparison.BELOW, band[3], Outcome.NEXT_TAKE, ratherSlow));
                rules.add(rule(id + "p90", band, Rule.Comparison.ABOVE, band[4], Outcome.NEXT_TAKE, ratherFast));
                rules.add(rule(id + "p99", band, Rule.Comparison.ABOVE, band[5], Outcome.BE_SEEN_TODAY, fast));
            }
            return rules;
        }

        private Rule rule(String id, int[] band, Rule.Comparison is, int limit, Outcome outcome, String text) {
            Rule.Limit onRate = new Rule.Limit(Vital.RESPIRATORY_RATE, is, limit);
            return new Rule(
                    id,
                    band[0],
                    band[1] - 1,
                    onRate,
                    0,
                    Set.of(),
                    Set.of(),
                    // Asleep is slower than awake (the same source, seen on its own page [P]): not by itself a reason
                    // to listen again.
                    id.endsWith("p10") ? EnumSet.of(Fact.ASLEEP) : Set.of(),
                    outcome,
                    text,
                    outcome == Outcome.NEXT_TAKE ? "Count the breaths again, over a full calm minute." : "",
                    List.of(source));
        }
    }

    private static Set<Fact> facts(@Nullable List<String> ids) {
        Set<Fact> facts = EnumSet.noneOf(Fact.class);
        if (ids != null) {
            ids.forEach(id -> facts.add(Fact.ofId(id)));
        }
        return facts;
    }

    static Outcome outcomeOf(String id) {
        return find(Outcome.values(), Outcome::id, id);
    }

    static Vital vitalOf(String id) {
        return find(Vital.values(), Vital::id, id);
    }

    private static Rule.Comparison comparison(String id) {
        return find(Rule.Comparison.values(), Rule.Comparison::id, id);
    }

    private static <T> T find(T[] values, java.util.function.Function<T, String> name, String id) {
        return Arrays.stream(values)
                .filter(v -> name.apply(v).equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("rules.json: " + id + " is not known"));
    }

    /** What is asked for under an id at an age; null where nothing is. */
    @Nullable
    Ask ask(String id, Age age) {
        return missing.stream()
                .filter(m -> m.id().equals(id) && m.asked(age))
                .findFirst()
                .orElse(null);
    }
}
