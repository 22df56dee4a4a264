package lungwort.round;

import java.util.UUID;
import lungwort.diary.Measures;
import lungwort.guidance.Site;

/**
 * Left and right at the same height, from each side the take that stands for it ({@link SiteView#telling()}).
 *
 * @param left the site on the left
 * @param right the site on the right
 * @param takeLeft the take on the left
 * @param takeRight the take on the right
 * @param measuresLeft numbers on the left
 * @param measuresRight numbers on the right
 * @param toldLeft which of them say something
 * @param toldRight the same on the right
 * @param words both in plain words, with the numbers
 */
public record SidePair(
        Site left,
        Site right,
        UUID takeLeft,
        UUID takeRight,
        Measures measuresLeft,
        Measures measuresRight,
        Told toldLeft,
        Told toldRight,
        String words) {}
