/** Takes beside one another: left and right, upper and lower, before and after, today and this person's usual. */
@NullMarked
package lungwort.compare;

import org.jspecify.annotations.NullMarked;
