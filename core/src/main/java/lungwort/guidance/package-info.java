/** Vitals, ages, limits as data with sources, next steps and cautions. */
@NullMarked
package lungwort.guidance;

import org.jspecify.annotations.NullMarked;
