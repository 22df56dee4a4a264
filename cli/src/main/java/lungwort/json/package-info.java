/** Values of the core as JSON and back. */
@NullMarked
package lungwort.json;

import org.jspecify.annotations.NullMarked;
