/** One annotation model and an adapter for each public database. */
@NullMarked
package lungwort.dataset;

import org.jspecify.annotations.NullMarked;
