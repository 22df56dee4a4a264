package lungwort.round;

import java.util.List;
import java.util.Optional;
import lungwort.diary.Measures;
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

    /** The first take that could be judged. */
    public Optional<Take> firstJudged() {
        return takes.stream().filter(SiteView::judged).findFirst();
    }

    /** The numbers of the first take that could be judged. */
    public Optional<Measures> measures() {
        return firstJudged().flatMap(Take::examination).map(Measures::of);
    }

    /** True if a take was examined and could be judged. */
    static boolean judged(Take take) {
        return take.examination()
                .map(Examination::suggestion)
                .filter(s -> s != Suggestion.CANNOT_TELL)
                .isPresent();
    }
}
