/** Pictures: they take what was measured and draw it; they never compute a verdict. */
@NullMarked
package lungwort.picture;

import org.jspecify.annotations.NullMarked;
