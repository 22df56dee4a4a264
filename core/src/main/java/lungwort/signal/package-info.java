/** Pure functions over sample arrays: filters, spectrogram, mel bands, cepstrum, envelopes. */
@NullMarked
package lungwort.signal;

import org.jspecify.annotations.NullMarked;
