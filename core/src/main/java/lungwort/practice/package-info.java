/** A parametric chest-sound synthesiser with exact ground truth. */
@NullMarked
package lungwort.practice;

import org.jspecify.annotations.NullMarked;
