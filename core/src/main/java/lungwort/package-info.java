/** What every package stands on: the one exception for bad input. */
@NullMarked
package lungwort;

import org.jspecify.annotations.NullMarked;
