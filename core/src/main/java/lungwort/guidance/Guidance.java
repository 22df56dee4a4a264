package lungwort.guidance;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import lungwort.BadInput;

/**
 * Decides what to do next: danger signs first, then vital signs against limits of the age, then sounds with symptoms. The outcome is the gravest that any rule leads to,
 * so that nothing - least of all a chest in which nothing was heard - can take back what something else says. Sources: the rules file, {@code rules.json}.
 */
public final class Guidance {
    private static final RuleBook BOOK = RuleBook.shipped();

    private Guidance() {}

    /** The danger-sign questions that everybody of an age is asked, in the order in which they are asked. */
    public static List<DangerSign> dangerSigns(Age age) {
        return dangerSigns(age, Conditions.NONE);
    }

    /** The danger-sign questions for a person of that age with those conditions, in the order in which they are asked. */
    public static List<DangerSign> dangerSigns(Age age, Conditions known) {
        return BOOK.dangerSigns().stream().filter(s -> s.asked(age, known)).toList();
    }

    /** Every danger sign there is. */
    public static List<DangerSign> allDangerSigns() {
        return BOOK.dangerSigns();
    }

    /**
     * The danger sign of an id.
     *
     * @throws BadInput if there is none
     */
    public static DangerSign dangerSign(String id) {
        return BOOK.dangerSigns().stream()
                .filter(s -> s.id().equals(id))
                .findFirst()
                .orElseThrow(() -> BadInput.of(
                        "danger sign: \"%s\" is not known; use one of %s.",
                        id,
                        BOOK.dangerSigns().stream()
                                .map(DangerSign::id)
                                .collect(java.util.stream.Collectors.joining(", "))));
    }

    /** What to do next. Pure: the same situation always gives the same step. */
    public static NextStep decide(Situation situation) {
        return decide(situation, BOOK);
    }

    /**
     * The graver of the steps for the age given and for one month less: for a person of whom only the month of birth is known, whose age in months completed may be either.
     */
    public static NextStep decideFromBirthMonth(Situation situation) {
        NextStep step = decide(situation);
        int months = situation.age().months();
        if (months == 0) {
            return step;
        }
        NextStep younger = decide(situation.with(new Age(months - 1)));
        // Only what the younger age makes graver counts: its questions were not asked.
        boolean graver =
                younger.reasons().stream().anyMatch(r -> !step.outcome().atLeast(r.outcome()));
        return graver ? younger : step;
    }

    /** True if {@link #decideFromBirthMonth} says that a clinician is to be seen today, or that it is an emergency; quicker where many are asked. */
    public static boolean asksForClinician(Situation situation) {
        int months = situation.age().months();
        return hasGraveReason(situation) || months > 0 && hasGraveReason(situation.with(new Age(months - 1)));
    }

    private static boolean hasGraveReason(Situation situation) {
        News2 news2 = BOOK.news2().score(situation);
        return new Reasons(BOOK, situation, news2)
                .collect(Facts.of(situation)).stream().anyMatch(r -> r.outcome().atLeast(Outcome.BE_SEEN_TODAY));
    }

    /** True if new pain or tightness in the chest is asked for at that age: not of who cannot say yet that something hurts. */
    public static boolean asksForChestPain(Age age) {
        return BOOK.ask("chest-pain", age) != null;
    }

    /** The limits on vital signs that hold for a person of that age and with those conditions, crossed or not; the gravest of each vital sign first. */
    public static List<VitalLimit> limits(Situation situation) {
        return new VitalLimits(BOOK, situation).list();
    }

    static RuleBook book() {
        return BOOK;
    }

    private static NextStep decide(Situation situation, RuleBook book) {
        Set<Fact> facts = Facts.of(situation);
        News2 news2 = book.news2().score(situation);
        Reasons finder = new Reasons(book, situation, news2);
        List<Reason> reasons = finder.collect(facts);
        List<Missing> missing = new Gaps(book, situation, news2).list();
        Outcome outcome = missing.stream().anyMatch(Missing::needed) ? Outcome.NEXT_TAKE : Outcome.KEEP_WATCHING;
        for (Reason reason : reasons) {
            outcome = outcome.orGraver(reason.outcome());
        }
        reasons.sort(Comparator.comparing(Reason::outcome));
        return new NextStep(
                outcome,
                reasons,
                Actions.of(outcome, situation, missing, finder.actions()),
                missing,
                new Changes(book, situation, facts).list(outcome),
                cautions(book, facts),
                news2);
    }

    private static List<String> cautions(RuleBook book, Set<Fact> facts) {
        List<String> cautions = new ArrayList<>();
        for (RuleBook.Caution caution : book.cautions()) {
            if (facts.containsAll(caution.when())) {
                cautions.add(
                        caution.sources().isEmpty()
                                ? caution.text()
                                : caution.text() + " Source: " + join(caution.sources()) + ".");
            }
        }
        return cautions;
    }

    private static String join(List<Citation> sources) {
        return sources.stream().map(Citation::toString).collect(java.util.stream.Collectors.joining("; "));
    }
}
