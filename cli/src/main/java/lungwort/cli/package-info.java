/** Commands. */
@NullMarked
package lungwort.cli;

import org.jspecify.annotations.NullMarked;
