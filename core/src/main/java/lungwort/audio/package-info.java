/** Recordings and how they are read: WAV and FLAC, the decoder interface, resampling. */
@NullMarked
package lungwort.audio;

import org.jspecify.annotations.NullMarked;
