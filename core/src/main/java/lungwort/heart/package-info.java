/** Heart sounds: found, timed, and lowered where they mask the breath. */
@NullMarked
package lungwort.heart;

import org.jspecify.annotations.NullMarked;
