/** The classifier, its calibration, thresholds, model file and card. */
@NullMarked
package lungwort.classify;

import org.jspecify.annotations.NullMarked;
