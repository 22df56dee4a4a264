package lungwort.guidance;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What to do next, and why.
 *
 * @param outcome the gravest that any reason leads to
 * @param reasons every rule that applies, gravest first; empty only where nothing crosses a limit
 * @param actions what to do now, in order, in plain words
 * @param missing what was not given; asked for, never taken as normal
 * @param wouldChange what would make it graver
 * @param cautions always shown
 * @param news2 the early-warning score of an adult, as far as it is known; null where it does not apply
 */
public record NextStep(
        Outcome outcome,
        List<Reason> reasons,
        List<String> actions,
        List<Missing> missing,
        List<String> wouldChange,
        List<String> cautions,
        @Nullable News2 news2) {
    public NextStep {
        reasons = List.copyOf(reasons);
        actions = List.copyOf(actions);
        missing = List.copyOf(missing);
        wouldChange = List.copyOf(wouldChange);
        cautions = List.copyOf(cautions);
    }

    /** True if a clinician is to be seen today, or it is an emergency, and not for a risen weight alone. */
    public boolean asksForClinicianBesideWeight() {
        boolean byWeight = reasons.stream().anyMatch(r -> r.rule().equals(Reasons.WEIGHT_RISE));
        return outcome.atLeast(Outcome.BE_SEEN_TODAY)
                && (!byWeight
                        || reasons.stream()
                                .anyMatch(r -> !r.rule().equals(Reasons.WEIGHT_RISE)
                                        && r.outcome().atLeast(Outcome.BE_SEEN_TODAY)));
    }
}
