/** Can this recording be judged at all, and if not, what should the person do. */
@NullMarked
package lungwort.quality;

import org.jspecify.annotations.NullMarked;
