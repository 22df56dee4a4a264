/** Decoders for what phones and browsers write, found by {@link lungwort.audio.RecordingReader} through the service loader. */
@NullMarked
package lungwort.decode;

import org.jspecify.annotations.NullMarked;
