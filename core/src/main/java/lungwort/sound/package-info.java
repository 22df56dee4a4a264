/** The measured sounds: ridge-tracked continuous sounds and timed crackles. */
@NullMarked
package lungwort.sound;

import org.jspecify.annotations.NullMarked;
