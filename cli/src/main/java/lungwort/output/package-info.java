/** Files that are written because somebody asked for them. */
@NullMarked
package lungwort.output;

import org.jspecify.annotations.NullMarked;
