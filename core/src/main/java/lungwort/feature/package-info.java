/** The catalogue of named features and the extractor. */
@NullMarked
package lungwort.feature;

import org.jspecify.annotations.NullMarked;
