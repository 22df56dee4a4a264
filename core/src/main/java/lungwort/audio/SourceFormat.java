package lungwort.audio;

/**
 * How a recording was stored before it became samples.
 *
 * @param container for example {@code WAV}, {@code FLAC}, {@code MP4}; {@code memory} for samples that never were a file
 * @param encoding for example {@code PCM}, {@code float}, {@code AAC}
 * @param sampleRateHz rate of the stored samples, in Hz
 * @param bitsPerSample stored bits per sample; 0 where the encoding has none (lossy codecs)
 * @param channels stored channels; the recording itself is always mono
 */
public record SourceFormat(String container, String encoding, int sampleRateHz, int bitsPerSample, int channels) {
    /** Samples made in memory at the given rate. */
    public static SourceFormat memory(int sampleRateHz) {
        return new SourceFormat("memory", "float", sampleRateHz, 64, 1);
    }
}
