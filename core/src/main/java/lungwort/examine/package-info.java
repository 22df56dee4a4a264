/** The facade: a recording in, an examination out. */
@NullMarked
package lungwort.examine;

import org.jspecify.annotations.NullMarked;
