/** Challenge scores, confusion, ROC, patient-wise resampling, and training by recipe. */
@NullMarked
package lungwort.score;

import org.jspecify.annotations.NullMarked;
