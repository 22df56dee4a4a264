package lungwort.audio;

import lungwort.BadInput;

/**
 * Reads one kind of sound file. Implementations have a public constructor without arguments, are named in {@code META-INF/services/lungwort.audio.AudioDecoder},
 * keep no state, and are asked in the order they are found, after WAV and FLAC.
 */
public interface AudioDecoder {
    /** How many bytes from the start of a file {@link #accepts} is given, at most. */
    int HEAD_BYTES = 4_096;

    /** What it reads, for sentences to people: for example {@code "M4A (AAC)"}. */
    String formats();

    /**
     * Whether this decoder should read a file, judged by its content and never by its name.
     *
     * @param head the first {@value #HEAD_BYTES} bytes, or all if there are fewer; only read
     */
    boolean accepts(byte[] head);

    /**
     * Decodes a file that this decoder accepts.
     *
     * @param content the whole file; only read
     * @param name the file's name, for sentences
     * @param options how to make one channel of several
     * @return a recording with at least one sample
     * @throws BadInput if the content is damaged, has no sound, is too long, or is of a variant that cannot be read; memory taken before that stays in
     *     proportion to what the file holds and under {@link MonoMix}'s limits
     */
    Recording decode(byte[] content, String name, ReadingOptions options);
}
