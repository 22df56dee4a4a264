package lungwort.round;

import java.util.List;
import lungwort.compare.Clearing;
import lungwort.diary.Measures;
import lungwort.diary.Take;

/**
 * An extra sound and a later take at the same site.
 *
 * @param before the first take that suggests the extra sound
 * @param after the later take
 * @param measuresBefore its numbers
 * @param measuresAfter its numbers
 * @param toldBefore which of the numbers before say something
 * @param toldAfter the same of those after
 * @param cleared true if none was heard in the later take; that nothing stands out clears nothing
 * @param clearings what became of each kind of extra sound, with the numbers before and after
 * @param words the same in plain words
 */
public record BeforeAfter(
        Take before,
        Take after,
        Measures measuresBefore,
        Measures measuresAfter,
        Told toldBefore,
        Told toldAfter,
        boolean cleared,
        List<Clearing> clearings,
        String words) {
    public BeforeAfter {
        clearings = List.copyOf(clearings);
    }
}
