package lungwort.round;

import java.util.List;
import lungwort.compare.Clearing;
import lungwort.compare.Comparison;
import lungwort.diary.Take;

/**
 * Two takes of the diary beside one another.
 *
 * @param first the first take
 * @param second the second take
 * @param comparison their levels, spectra, breaths and evidence
 * @param clearings what became of an extra sound, where the second is a later take at the same site of the same round; else empty
 */
public record Compared(Take first, Take second, Comparison comparison, List<Clearing> clearings) {
    public Compared {
        clearings = List.copyOf(clearings);
    }
}
