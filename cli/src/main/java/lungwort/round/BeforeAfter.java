package lungwort.round;

import lungwort.diary.Measures;
import lungwort.diary.Take;

/**
 * An extra sound and a later take at the same site.
 *
 * @param before the first take that suggests the extra sound
 * @param after the later take
 * @param measuresBefore its numbers
 * @param measuresAfter its numbers
 * @param cleared true if the later take suggests no extra sound
 * @param words both in plain words, with the numbers
 */
public record BeforeAfter(
        Take before, Take after, Measures measuresBefore, Measures measuresAfter, boolean cleared, String words) {}
