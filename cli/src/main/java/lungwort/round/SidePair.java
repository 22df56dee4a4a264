package lungwort.round;

import lungwort.diary.Measures;
import lungwort.guidance.Site;

/**
 * Left and right at the same height, first judged take each.
 *
 * @param left the site on the left
 * @param right the site on the right
 * @param measuresLeft numbers on the left
 * @param measuresRight numbers on the right
 * @param toldLeft which of them say something
 * @param toldRight the same on the right
 * @param words both in plain words, with the numbers
 */
public record SidePair(
        Site left,
        Site right,
        Measures measuresLeft,
        Measures measuresRight,
        Told toldLeft,
        Told toldRight,
        String words) {}
