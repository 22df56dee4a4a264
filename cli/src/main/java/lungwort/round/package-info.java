/** A round: what is asked, what the takes say together, and what to do next. The commands and the page show the same. */
@NullMarked
package lungwort.round;

import org.jspecify.annotations.NullMarked;
