package lungwort.round;

import java.util.ArrayList;
import java.util.List;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.guidance.Age;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.SoundFinding;
import lungwort.guidance.TakeReason;
import org.jspecify.annotations.Nullable;

/** Which take the round asks for next: first what the last site still needs, then what other sites need, then the next site. */
final class Asking {
    private static final String MEND =
            "A take at this site cannot tell whether an extra sound is there. Mend what is named, then listen again.";

    private Asking() {}

    static @Nullable Asked next(Age age, List<Take> takes, List<SiteView> sites, List<Site> open) {
        if (!takes.isEmpty()) {
            Site last = takes.get(takes.size() - 1).site();
            Asked here = sites.stream()
                    .filter(s -> s.site().equals(last))
                    .map(s -> again(age, s))
                    .filter(java.util.Objects::nonNull)
                    .findFirst()
                    .orElse(null);
            if (here != null) {
                return here;
            }
        }
        for (SiteView site : sites) {
            Asked again = again(age, site);
            if (again != null) {
                return again;
            }
        }
        // One that was tried, and of which no further take would tell more, does not keep the round from the others.
        return open.stream()
                .filter(site -> sites.stream().noneMatch(s -> s.site().equals(site)))
                .findFirst()
                .map(site -> nextSite(age, site, takes.isEmpty()))
                .orElse(null);
    }

    private static @Nullable Asked again(Age age, SiteView view) {
        SoundFinding finding = view.finding();
        TakeReason reason = finding == null ? null : finding.nextTake();
        if (finding == null || reason == null) {
            return null;
        }
        if (finding.unsure()) {
            List<String> instructions = new ArrayList<>(List.of(reason.instruction(age)));
            instructions.addAll(mend(view));
            return new Asked(
                    view.site(),
                    reason,
                    flawed(view)
                            ? MEND
                            : "A take at this site was good enough, and cannot tell whether an extra sound is there.",
                    instructions);
        }
        if (finding.nothingToJudge()) {
            String why = anyUsable(view) ? MEND : "No take at this site could be judged.";
            return new Asked(view.site(), reason, why, mend(view));
        }
        List<String> instructions = new ArrayList<>();
        if (finding.tonesToHearAgain()) {
            instructions.add(TakeReason.keepVoicesOut(age));
        }
        instructions.add(reason.instruction(age));
        return new Asked(
                view.site(),
                reason,
                "A take at this site %s.".formatted(RoundWords.suggestion(lastExtra(view))),
                instructions);
    }

    private static lungwort.examine.Suggestion lastExtra(SiteView view) {
        List<Take> extra =
                view.takes().stream().filter(Situations::suggestsExtra).toList();
        return extra.get(extra.size() - 1)
                .examination()
                .map(Examination::suggestion)
                .orElseThrow();
    }

    private static boolean anyUsable(SiteView view) {
        return view.takes().stream()
                .flatMap(take -> take.examination().stream())
                .anyMatch(e -> e.quality().usable());
    }

    private static boolean flawed(SiteView view) {
        return lastOf(view)
                .examination()
                .filter(e -> !e.quality().findings().isEmpty())
                .isPresent();
    }

    private static Take lastOf(SiteView view) {
        return view.takes().get(view.takes().size() - 1);
    }

    /** What to mend before the take is made again, from the last take's quality findings. */
    private static List<String> mend(SiteView view) {
        List<String> remedies = new ArrayList<>();
        lastOf(view)
                .examination()
                .ifPresent(e -> e.quality()
                        .findings()
                        .forEach(f -> remedies.add(
                                f.issue().reason() + " " + f.issue().remedy())));
        remedies.add(Sites.placement(view.site()));
        return remedies;
    }

    private static Asked nextSite(Age age, Site site, boolean first) {
        List<String> instructions = new ArrayList<>();
        if (first) {
            instructions.addAll(Sites.beforeTheRound(age));
        }
        instructions.add(Sites.placement(site));
        return new Asked(
                site, TakeReason.FIRST, first ? "The round begins." : "The next site of the round.", instructions);
    }
}
