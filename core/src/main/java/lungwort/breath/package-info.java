/** Breath cycles, phases and respiratory rate from the sound alone. */
@NullMarked
package lungwort.breath;

import org.jspecify.annotations.NullMarked;
