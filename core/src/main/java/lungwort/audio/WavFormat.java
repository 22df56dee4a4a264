package lungwort.audio;

import java.util.Locale;
import java.util.Set;
import lungwort.BadInput;

/**
 * What a {@code fmt } chunk says, less what it should not be trusted for: the block align is left out, since real databases store 4 for 16-bit mono.
 *
 * @param isFloat IEEE float rather than integer PCM
 * @param channels channels in a frame
 * @param rateHz frames a second
 * @param bits bits of a sample, as stored
 */
record WavFormat(boolean isFloat, int channels, int rateHz, int bits) {
    /** Shortest chunk that says all: tag, channels, rate, bytes a second, block align, bits. */
    static final int MIN_BYTES = 16;

    private static final int PCM = 1;
    private static final int IEEE_FLOAT = 3;
    private static final int EXTENSIBLE = 0xFFFE;

    /** WAVE_FORMAT_ADPCM, ALAW, MULAW, DVI_ADPCM, GSM610, MPEGLAYER3. */
    private static final Set<Integer> FOREIGN = Set.of(0x2, 0x6, 0x7, 0x11, 0x31, 0x55);

    /** From the chunk's start to the sub-format's first two bytes, which are the tag an EXTENSIBLE chunk stands for. */
    private static final int SUB_FORMAT_AT = 24;

    /**
     * Whether a chunk names an encoding of telephones and old recorders (G.711's A-law and mu-law, the ADPCMs, GSM 06.10, MP3 in WAV), which other decoders may read. Any other tag that is not PCM or float
     * is taken for damage.
     *
     * @param at byte at which the chunk's content begins
     */
    static boolean isForeign(byte[] b, int at) {
        return at + MIN_BYTES <= b.length && FOREIGN.contains(ByteReader.u16(b, at));
    }

    static WavFormat parse(byte[] b, int at, long length, String name) {
        if (length < MIN_BYTES || at + MIN_BYTES > b.length) {
            throw BadInput.of(
                    "%s: its header is cut at byte %d; the file is damaged, copy or record it again.",
                    name, Math.min(b.length, at + length));
        }
        int tag = ByteReader.u16(b, at);
        if (tag == EXTENSIBLE && length >= SUB_FORMAT_AT + 16 && at + SUB_FORMAT_AT + 16 <= b.length) {
            tag = ByteReader.u16(b, at + SUB_FORMAT_AT);
        }
        long rate = ByteReader.u32(b, at + 4);
        WavFormat format = new WavFormat(
                tag == IEEE_FLOAT,
                ByteReader.u16(b, at + 2),
                (int) Math.min(Integer.MAX_VALUE, rate),
                ByteReader.u16(b, at + 14));
        format.requireKnown(tag, name);
        return format;
    }

    private void requireKnown(int tag, String name) {
        if (tag != PCM && tag != IEEE_FLOAT) {
            throw BadInput.of(
                    "%s: its WAV encoding 0x%s cannot be read (only PCM and IEEE float can); save it as 16-bit PCM WAV.",
                    name, Integer.toHexString(tag).toUpperCase(Locale.ROOT));
        }
        boolean known = isFloat ? bits == 32 || bits == 64 : bits >= 1 && bits <= 32;
        if (!known) {
            throw BadInput.of(
                    "%s: its header says %d bits a sample, and PCM of 1 to 32 or float of 32 or 64 can be read; save it as 16-bit PCM WAV.",
                    name, bits);
        }
    }

    /** Bytes that a sample takes: whole ones, with the value in the upper bits where it does not fill them. */
    int bytesPerSample() {
        return (bits + 7) / 8;
    }

    /** The sample at a byte, in [-1, 1) for PCM (8 bits and fewer are stored without sign); floats as they are. */
    double sample(byte[] b, int at) {
        return switch (bytesPerSample()) {
            case 1 -> (ByteReader.u8(b, at) - 128) / 128.0;
            case 2 -> ByteReader.i16(b, at) / 32_768.0;
            case 3 -> ByteReader.i24(b, at) / 8_388_608.0;
            case 4 -> isFloat ? Float.intBitsToFloat(ByteReader.i32(b, at)) : ByteReader.i32(b, at) / 2_147_483_648.0;
            default -> Double.longBitsToDouble(ByteReader.i64(b, at));
        };
    }
}
