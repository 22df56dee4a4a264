package lungwort.round;

import java.util.List;
import java.util.Optional;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Site;
import lungwort.guidance.SoundFinding;
import org.jspecify.annotations.Nullable;

/**
 * All takes at one site of a round.
 *
 * @param site where
 * @param takes in the order in which they were made, at least one
 * @param finding what they say together, or null while none is examined
 * @param changes each later judged take against the first that suggests an extra sound
 */
public record SiteView(
        Site site, List<Take> takes, @Nullable SoundFinding finding, List<BeforeAfter> changes) {
    public SiteView {
        takes = List.copyOf(takes);
        changes = List.copyOf(changes);
    }

    /**
     * The take that stands for the site beside another site: the first that suggests an extra sound, so that none heard in one take hides no sound of another; else the first that could be judged in
     * whole breaths; else the first that could be judged. Common practice.
     */
    public Optional<Take> telling() {
        return telling(takes);
    }

    /** The same of some takes at one site, in the order in which they were made. */
    static Optional<Take> telling(List<Take> takes) {
        List<Take> judged = takes.stream().filter(SiteView::judged).toList();
        return judged.stream()
                .filter(Situations::suggestsExtra)
                .findFirst()
                .or(() -> judged.stream().filter(SiteView::inWholeBreaths).findFirst())
                .or(() -> judged.stream().findFirst());
    }

    /** True if its takes tell something: one was judged, and not only, for the first time, in hardly a whole breath. */
    boolean told() {
        return finding != null && !finding.nothingToJudge();
    }

    /** Which numbers of a take say something beside another site: no zero of a sound that another take at this site suggests. */
    Told told(Examination examination) {
        Told told = Told.of(examination);
        return new Told(
                told.continuous() && (examination.suggestion().names(true) || !anySuggests(true)),
                told.crackles() && (examination.suggestion().names(false) || !anySuggests(false)));
    }

    private boolean anySuggests(boolean continuous) {
        return takes.stream()
                .flatMap(take -> take.examination().stream())
                .anyMatch(e -> e.suggestion().names(continuous));
    }

    private static boolean inWholeBreaths(Take take) {
        return take.examination().filter(e -> !e.noneInHardlyABreath()).isPresent();
    }

    /** True if a take was examined and could be judged. */
    static boolean judged(Take take) {
        return take.examination()
                .map(Examination::suggestion)
                .filter(s -> s != Suggestion.CANNOT_TELL)
                .isPresent();
    }
}
