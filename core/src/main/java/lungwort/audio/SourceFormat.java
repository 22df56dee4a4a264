package lungwort.audio;

import java.util.ArrayList;
import java.util.List;

/**
 * How a recording was stored before it became samples.
 *
 * @param container for example {@code WAV}, {@code FLAC}, {@code MP4}; {@code memory} for samples that never were a file
 * @param encoding for example {@code PCM}, {@code float}, {@code AAC}
 * @param sampleRateHz rate of the stored samples, in Hz
 * @param bitsPerSample stored bits per sample; 0 where the encoding has none (lossy codecs)
 * @param channels stored channels; the recording itself is always mono
 * @param remarks sentences for people about what was met in reading and how it was dealt with (the file was cut, channels were averaged); mostly empty
 */
public record SourceFormat(
        String container, String encoding, int sampleRateHz, int bitsPerSample, int channels, List<String> remarks) {
    public SourceFormat {
        remarks = List.copyOf(remarks);
    }

    /** A source about which there is nothing to remark. */
    public SourceFormat(String container, String encoding, int sampleRateHz, int bitsPerSample, int channels) {
        this(container, encoding, sampleRateHz, bitsPerSample, channels, List.of());
    }

    /** Samples made in memory at the given rate. */
    public static SourceFormat memory(int sampleRateHz) {
        return new SourceFormat("memory", "float", sampleRateHz, 64, 1);
    }

    /** The same with one more remark. */
    public SourceFormat remark(String sentence) {
        List<String> more = new ArrayList<>(remarks);
        more.add(sentence);
        return new SourceFormat(container, encoding, sampleRateHz, bitsPerSample, channels, more);
    }
}
