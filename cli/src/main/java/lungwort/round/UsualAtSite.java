package lungwort.round;

import java.util.List;
import lungwort.compare.Usual;
import lungwort.diary.Take;

/**
 * A take against this person's earlier ones at the same site.
 *
 * @param take the take
 * @param earlier the earlier takes, oldest first
 * @param ofWellDays true if they are of days on which nothing asked for a clinician
 * @param measures measure by measure
 */
public record UsualAtSite(Take take, List<Take> earlier, boolean ofWellDays, List<Usual> measures) {
    public UsualAtSite {
        earlier = List.copyOf(earlier);
        measures = List.copyOf(measures);
    }

    /** True if this take suggests an extra sound, and none of enough earlier ones did. */
    public boolean newKind() {
        return earlier.size() >= Usual.ENOUGH_TAKES
                && Situations.suggestsExtra(take)
                && earlier.stream().noneMatch(Situations::suggestsExtra);
    }
}
